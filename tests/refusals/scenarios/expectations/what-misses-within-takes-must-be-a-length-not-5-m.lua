local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
local banks = grid {
  equipment = hall,
  contact = span(1, 3, 0.5),
  speed = { mps(2), mps(4) },
  off_rail = { inches(0), inches(6) },
}
local map = compare(banks, ratio)
expect(map):misses_within(mps(5))
-- refused at 10:27 `mps(5)`
-- what misses_within takes must be a length, not 5 m/s
-- hint: its unit is one of: m, cm, mm, in, ft
