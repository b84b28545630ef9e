local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
local banks = grid {
  equipment = hall,
  contact = span(1, 3, 0.5),
  speed = { mps(2), mps(4) },
  off_rail = { inches(0), inches(6) },
}
local map = compare(banks, ratio)
expect(map):share_at_least(90)
-- refused at 10:28 `90`
-- what share_at_least takes must be from 0 to 1, not 90
-- hint: a share is from 0 to 1: 0.9 is nine in ten
