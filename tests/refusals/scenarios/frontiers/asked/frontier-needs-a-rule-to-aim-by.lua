local hall = equipment 'harbour-hall'
local banks = grid {
  equipment = hall,
  rail_model = 'nose-only',
  contact = { 2, 2.5 },
  off_rail = span(inches(0), inches(16), inches(4)),
  speed = span(mps(1), mps(8), mps(0.5)),
  spin = 'stun',
}
frontier { banks = banks, along = 'speed', tolerance = mps(0.01) }
-- refused at 10:1 `frontier`
-- frontier needs a `rule` to aim by
-- hint: write rule = rule.linear { … }, or give the sweep a `start`
