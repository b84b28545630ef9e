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
front:where { contact = 3 }
-- refused at 17:25 `3`
-- `contact` asks for 3, which is not played
-- hint: played: 2, 2.5; ask for one of them, or delete the line
