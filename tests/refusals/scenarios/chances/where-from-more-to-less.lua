local hall = equipment 'nine-foot'
local ratio = rule.linear { slope = 2.2, reading = 'groove' }
local banks = grid { equipment = hall, contact = { 2, 3 }, off_rail = inches(0), speed = mps(3), spin = 'stun' }
player('club'):chances(banks, ratio):where { contact = from_to(3, 2) }
-- refused at 4:46 `contact`
-- `contact` must go from the smaller to the greater
