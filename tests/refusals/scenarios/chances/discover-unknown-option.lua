local hall = equipment 'nine-foot'
local ratio = rule.linear { slope = 2.2, reading = 'groove' }
local banks = grid { equipment = hall, contact = { 2, 3 }, off_rail = inches(0), speed = mps(3), spin = 'stun' }
discover { on = hall, bends = false }
-- refused at 4:23 `bends`
-- discover has no option `bends`
-- hint: did you mean `hands`?
