local hall = (equipment "nine-foot"):with { speed_soft = mps(3) }
local banks = grid { equipment = hall, contact = { 1, 2 } }
compare { banks = banks, rule = rule.linear { slope = 2.2 } }
-- refused at 2:15 `grid`
-- `speed` is missing, and soft and medium, which would stand in, are one and the same speed here
-- hint: give `speed`, or each word a speed of its own in the profile's `speeds`
