local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
local banks = grid {
  equipment = hall,
  contact = span(1, 3, 0.5),
  speed = { mps(2), mps(4) },
  off_rail = { inches(0), inches(6) },
}
local map = compare(banks, ratio)
map:where { contact = { 1, 1.7 } }
-- refused at 10:28 `1.7`
-- `contact`, item 2, asks for 1.7, which is not played
-- hint: played: 1, 1.5, 2, 2.5, 3; ask for one of them, or delete the line
