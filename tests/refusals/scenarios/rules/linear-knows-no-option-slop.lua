local hall = equipment 'harbour-hall'
local banks = grid { equipment = hall, contact = { 1, 2 }, speed = mps(3) }
rule.linear { slop = 2 }
-- refused at 3:15 `slop`
-- linear has no option `slop`
-- hint: did you mean `slope`?
