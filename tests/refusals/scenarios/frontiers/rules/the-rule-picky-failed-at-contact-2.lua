local hall = equipment 'harbour-hall'
local banks = grid {
  equipment = hall,
  rail_model = 'nose-only',
  contact = { 2, 2.5 },
  off_rail = span(inches(0), inches(16), inches(4)),
  speed = span(mps(1), mps(8), mps(0.5)),
  spin = 'stun',
}
local picky = rule.func { name = 'picky', start = function(c)
if c > 2.2 and c < 2.4 then error 'not here' end
return 2 * c end }
local many = grid { equipment = hall, contact = { 2, 2.5 }, speed = mps(4) }
frontier { banks = many, rule = picky, along = 'contact', tolerance = 0.01, probes = 20 }
-- refused at 11:1 `if c > 2.2 and c < 2.4 then error 'not here' end`
-- the rule picky failed at contact 2.211: not here (contact 2.2105263157894735)
