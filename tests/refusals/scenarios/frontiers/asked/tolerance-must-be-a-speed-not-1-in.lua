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
frontier { banks = banks, rule = ratio, along = 'speed', tolerance = inches(1) }
-- refused at 11:58 `tolerance`
-- `tolerance` must be a speed, not 1 in
-- hint: its unit is one of: m/s, km/h, mph, ft/s, in/s
