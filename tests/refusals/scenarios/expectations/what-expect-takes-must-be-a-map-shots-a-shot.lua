local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
local banks = grid {
  equipment = hall,
  contact = span(1, 3, 0.5),
  speed = { mps(2), mps(4) },
  off_rail = { inches(0), inches(6) },
}
local map = compare(banks, ratio)
expect(2.2)
-- refused at 10:8 `2.2`
-- what expect takes must be a map, shots, a shot, a frontier or a selection of one, not a plain number
-- hint: for numbers and quantities write expect_number(…)
