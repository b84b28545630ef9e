local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
local banks = grid {
  equipment = hall,
  rail_model = 'nose-only',
  contact = { 2, 2.5 },
  off_rail = span(inches(0), inches(16), inches(4)),
  speed = span(mps(1), mps(8), mps(0.5)),
  spin = 'stun',
}
local front = frontier {
  banks = banks,
  rule = ratio,
  along = 'speed',
  tolerance = mps(0.01),
}
front:draw { x = 'off_rail' }
-- refused at 17:7 `draw`
-- the picture has no room for `contact` (2 values)
-- hint: show it as one of `x` or `panels`, or first select one value: :where { contact = 2 }
