local hall = equipment 'nine-foot'
local ratio = rule.linear { slope = 2.2, reading = 'groove' }
local banks = grid { equipment = hall, contact = { 2, 3 }, off_rail = inches(0), speed = mps(3), spin = 'stun' }
player('club'):chances(banks, ratio):edges { along = 'contact', at = 50 }
-- refused at 4:70 `50`
-- `at` must be from 0.01 to 0.99, not 50
