local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
local banks = grid {
  equipment = hall,
  contact = span(1, 3, 0.5),
  speed = { mps(2), mps(4) },
  off_rail = { inches(0), inches(6) },
}
local map = compare(banks, ratio)
map:draw { y = 'contact', x = 'speed', panels = 'off_rail', name = '../x' }
-- refused at 10:61 `name`
-- `name` becomes a file's name: letters, digits, spaces, - and _ only, at most 60 of them
