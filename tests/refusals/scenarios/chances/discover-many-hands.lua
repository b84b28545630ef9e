local hall = equipment 'nine-foot'
local ratio = rule.linear { slope = 2.2, reading = 'groove' }
local banks = grid { equipment = hall, contact = { 2, 3 }, off_rail = inches(0), speed = mps(3), spin = 'stun' }
discover { on = hall, hands = 20 }
-- refused at 4:23 `hands`
-- `hands` must be from 0 to 8, not 20
