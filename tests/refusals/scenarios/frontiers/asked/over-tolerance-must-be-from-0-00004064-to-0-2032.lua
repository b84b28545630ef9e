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
frontier { banks = banks, rule = ratio, along = 'speed', tolerance = mps(0.01), over = 'off_rail', over_tolerance = inches(60) }
-- refused at 11:100 `over_tolerance`
-- `over_tolerance` must be from 0.00004064 to 0.2032 m
-- hint: at most half of what is searched, and no finer than rounding allows
