local hall = equipment 'nine-foot'
local ratio = rule.linear { slope = 2.2, reading = 'groove' }
local banks = grid { equipment = hall, contact = { 2, 3 }, off_rail = inches(0), speed = mps(3), spin = 'stun' }
discover { on = hall, from = 3, to = 2 }
-- refused at 4:33 `to`
-- `to` must be more than `from`
