local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
local banks = grid {
  equipment = hall,
  contact = span(1, 3, 0.5),
  speed = { mps(2), mps(4) },
  off_rail = { inches(0), inches(6) },
}
local map = compare(banks, ratio)
local one = map:where { contact = 1 }
one:where { contact = 2 }
-- refused at 11:23 `2`
-- `contact` asks for 2, which is not played
-- hint: played: 1; ask for one of them, or delete the line
