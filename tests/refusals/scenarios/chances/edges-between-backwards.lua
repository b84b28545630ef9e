local hall = equipment 'nine-foot'
local ratio = rule.linear { slope = 2.2, reading = 'groove' }
local banks = grid { equipment = hall, contact = { 2, 3 }, off_rail = inches(0), speed = mps(3), spin = 'stun' }
expect(player('club'):chances(banks, ratio):edges { along = "contact", at = 0.5 }):lie_between(3, 2)
-- refused at 4:96 `3`
-- `lie_between` takes the lower end first
