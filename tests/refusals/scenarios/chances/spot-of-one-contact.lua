local hall = equipment 'nine-foot'
local ratio = rule.linear { slope = 2.2, reading = 'groove' }
local banks = grid { equipment = hall, contact = { 2, 3 }, off_rail = inches(0), speed = mps(3), spin = 'stun' }
one_spot { on = hall, contacts = { 2 } }
-- refused at 4:1 `one_spot`
-- a spot needs two different contacts at least
