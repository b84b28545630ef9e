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
expect(front):saves_at_least(0)
-- refused at 17:30 `0`
-- what saves_at_least takes must be at least 1, not 0
