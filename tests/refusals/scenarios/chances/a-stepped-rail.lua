local hall = equipment 'nine-foot'
local ratio = rule.linear { slope = 2.2, reading = 'groove' }
local banks = grid { equipment = hall, contact = { 2, 3 }, off_rail = inches(0), speed = mps(3), spin = 'stun' }
local stepped = hall:with { rail_model = 'compliant' }
player('club'):chances(grid { equipment = stepped, contact = 2, off_rail = inches(0), speed = mps(3), spin = 'stun' }, ratio)
-- refused at 5:16 `chances`
-- a stepped rail model is too slow for chances
