local hall = equipment 'harbour-hall'
local banks = grid {
  equipment = hall,
  rail_model = 'nose-only',
  contact = { 2, 2.5 },
  off_rail = span(inches(0), inches(16), inches(4)),
  speed = span(mps(1), mps(8), mps(0.5)),
  spin = 'stun',
}
local far = frontier { banks = banks, rule = rule.linear { slope = 3 }, along = 'speed', tolerance = mps(0.1) }
print(far:least())
-- refused at 11:11 `least`
-- none of the 10 lines holds anywhere
