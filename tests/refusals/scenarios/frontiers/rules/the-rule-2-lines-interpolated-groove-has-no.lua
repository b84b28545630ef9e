local hall = equipment 'harbour-hall'
local banks = grid {
  equipment = hall,
  rail_model = 'nose-only',
  contact = { 2, 2.5 },
  off_rail = span(inches(0), inches(16), inches(4)),
  speed = span(mps(1), mps(8), mps(0.5)),
  spin = 'stun',
}
local known = rule.lines { lines = { { 2, 4.4 }, { 2.2, 4.9 } }, way = 'interpolate' }
local many = grid { equipment = hall, contact = { 2, 2.5 }, speed = mps(4) }
frontier { banks = many, rule = known, along = 'contact', tolerance = 0.01, probes = 20 }
-- refused at 12:26 `rule`
-- the rule `2 lines, interpolated, groove` has no answer at contact 2.2105263157894735: contact number 2.211 lies outside the rule's known lines, whose contacts run from 2 to 2.2 (groove reading)
