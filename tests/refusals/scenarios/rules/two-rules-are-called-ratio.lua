local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
local banks = grid { equipment = hall, contact = { 1, 2 }, speed = mps(3) }
compare(banks, ratio, ratio)
-- refused at 4:23 `ratio`
-- two rules are called "ratio"
-- hint: give one of them a `name` of its own
