local hall = equipment 'nine-foot'
local ratio = rule.linear { slope = 2.2, reading = 'groove' }
local banks = grid { equipment = hall, contact = { 2, 3 }, off_rail = inches(0), speed = mps(3), spin = 'stun' }
player('club'):chances(banks, ratio):at { off_rail = inches(0) }
-- refused at 4:38 `at`
-- this leaves 2 banks; `at` needs one
