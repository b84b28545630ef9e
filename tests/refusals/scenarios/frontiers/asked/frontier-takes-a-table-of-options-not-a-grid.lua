local hall = equipment 'harbour-hall'
local banks = grid {
  equipment = hall,
  rail_model = 'nose-only',
  contact = { 2, 2.5 },
  off_rail = span(inches(0), inches(16), inches(4)),
  speed = span(mps(1), mps(8), mps(0.5)),
  spin = 'stun',
}
frontier(banks)
-- refused at 10:1 `frontier`
-- frontier takes a table of options, not a grid
-- hint: write frontier { banks = … }
