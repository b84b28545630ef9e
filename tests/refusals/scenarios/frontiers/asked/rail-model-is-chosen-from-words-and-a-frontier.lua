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
frontier { banks = banks, rule = ratio, along = 'rail_model', tolerance = 1 }
-- refused at 11:41 `along`
-- `rail_model` is chosen from words, but a frontier runs along numbers
