local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
local banks = grid {
  equipment = hall,
  contact = span(1, 3, 0.5),
  speed = { mps(2), mps(4) },
  off_rail = { inches(0), inches(6) },
}
local map = compare(banks, ratio)
expect(map):agrees_with(map:where { contact = 1 })
-- refused at 10:25 `map:where { contact = 1 }`
-- the two vary in different things, so no bank has a partner
-- hint: select with `where` until both vary in the same axes over the same values
