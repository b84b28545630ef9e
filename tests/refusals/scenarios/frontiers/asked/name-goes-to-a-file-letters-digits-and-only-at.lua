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
frontier { banks = banks, rule = ratio, along = 'speed', tolerance = mps(0.01), probes = 100000, over = 'off_rail', over_tolerance = inches(1), name = 'a/b' }
-- refused at 11:145 `name`
-- `name` becomes a file's name: letters, digits, spaces, - and _ only, at most 60 of them
