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
local started = grid { equipment = hall, contact = 2, start = { 4, 5 }, speed = mps(4) }
frontier { banks = started, rule = ratio, along = 'start', tolerance = 0.01 }
-- refused at 12:29 `rule`
-- the sweep gives `start` itself, so no rule can aim it
-- hint: leave out `start`, or the rule
