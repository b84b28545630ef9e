local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
local banks = grid {
  equipment = hall,
  contact = span(1, 3, 0.5),
  speed = { mps(2), mps(4) },
  off_rail = { inches(0), inches(6) },
  roll = span(0, 0.6, 0.1),
}
local map = compare(banks, ratio)
map:draw { x = 'speed', y = 'contact', panels = 'off_rail' }
-- refused at 11:5 `draw`
-- the picture has no room for `roll` (7 values)
-- hint: show it as one of `x`, `y` or `panels`, or first select one value: :where { roll = 0 }
