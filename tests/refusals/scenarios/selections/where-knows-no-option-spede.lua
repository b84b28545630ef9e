local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
local banks = grid {
  equipment = hall,
  contact = span(1, 3, 0.5),
  speed = { mps(2), mps(4) },
  off_rail = { inches(0), inches(6) },
}
local map = compare(banks, ratio)
map:where { spede = mps(2) }
-- refused at 10:13 `spede`
-- where has no option `spede`
-- hint: did you mean `speed`?
