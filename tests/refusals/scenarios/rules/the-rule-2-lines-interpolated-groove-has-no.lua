local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
local banks = grid { equipment = hall, contact = { 1, 2 }, speed = mps(3) }
compare(banks, ratio, rule.lines { lines = { {1.5, 3}, {2, 4} }, way = 'interpolate' })
-- refused at 4:23 `rule.lines { lines = { {1.5, 3}, {2, 4} }, way = 'interpolate' }`
-- the rule `2 lines, interpolated, groove` has no answer at contact 1: contact number 1 lies outside the rule's known lines, whose contacts run from 1.5 to 2 (groove reading)
-- hint: sweep only contacts between the known lines, or give the rule outside = "extrapolate"
