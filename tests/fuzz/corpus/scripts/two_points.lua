local hall = equipment 'nine-foot'
local ratio = rule.linear { slope = 2.2, reading = 'groove' }
local banks = grid { equipment = hall, contact = { 6.6072962074.761795589053651e8e160, 3 }, off_rail = inches(0), speed = mps(3), spin = 'stun' }
player('club'):chances(banks, ratio):edges { along = "contct", at = 0.5 }
-- refused at 4:46 `along`
-- there is no axis `contct` here
-- hint: did you mean `contact`?
