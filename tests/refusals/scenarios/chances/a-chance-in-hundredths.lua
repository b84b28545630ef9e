local hall = equipment 'nine-foot'
local ratio = rule.linear { slope = 2.2, reading = 'groove' }
local banks = grid { equipment = hall, contact = { 2, 3 }, off_rail = inches(0), speed = mps(3), spin = 'stun' }
expect(player('club'):chances(banks, ratio)):chance_at_least(60)
-- refused at 4:62 `60`
-- what chance_at_least takes must be from 0 to 1, not 60
