local hall = equipment 'harbour-hall'
local banks = grid { equipment = hall, contact = { 1, 2 }, speed = mps(3) }
rule.func { start = function(c) return c * slope end }
-- refused at 3:44 `slope`
-- `slope` comes from outside the function
-- hint: a rule function can use its own arguments and locals, math, string and table; write the value inside it
