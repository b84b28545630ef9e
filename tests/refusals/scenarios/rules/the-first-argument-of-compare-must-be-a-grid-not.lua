local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
local banks = grid { equipment = hall, contact = { 1, 2 }, speed = mps(3) }
compare(ratio)
-- refused at 4:9 `ratio`
-- the first argument of compare must be a grid, not a rule
-- hint: write compare(banks, …) with banks = grid { … }
