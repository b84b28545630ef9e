local hall = equipment 'harbour-hall'
local banks = grid { equipment = hall, contact = { 1, 2 }, speed = mps(3) }
rule.liner {}
-- refused at 3:6 `liner`
-- `rule` has no `liner`
-- hint: did you mean `linear`?
