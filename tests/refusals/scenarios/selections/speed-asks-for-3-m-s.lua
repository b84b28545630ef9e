local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
local banks = grid {
  equipment = hall,
  contact = span(1, 3, 0.5),
  speed = { mps(2), mps(4) },
  off_rail = { inches(0), inches(6) },
}
local map = compare(banks, ratio)
map:where { speed = mps(3) }
-- refused at 10:21 `mps(3)`
-- `speed` asks for 3 m/s, which is not played
-- hint: played: 2, 4 m/s; ask for one of them, or delete the line
