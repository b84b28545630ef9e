local hall = equipment 'nine-foot'
local ratio = rule.linear { slope = 2.2, reading = 'groove' }
local banks = grid { equipment = hall, contact = { 2, 3 }, off_rail = inches(0), speed = mps(3), spin = 'stun' }
player('club'):chances(banks, ratio):worst()
-- refused at 4:38 `worst`
-- a list of chances has no `worst`
-- hint: did you mean `most`?
