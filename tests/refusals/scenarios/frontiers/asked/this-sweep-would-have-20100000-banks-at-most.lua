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
local wide = grid { equipment = hall, contact = span(1, 3, 0.01), speed = { mps(1), mps(8) } }
frontier { banks = wide, rule = ratio, along = 'speed', tolerance = mps(0.1), probes = 100000 }
-- refused at 12:1 `frontier`
-- this sweep would have 20100000 banks; at most 2000000 are played at once
-- hint: take fewer lines or `probes`, or several sweeps
