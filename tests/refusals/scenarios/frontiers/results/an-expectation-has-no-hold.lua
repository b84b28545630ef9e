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
local front = frontier {
  banks = banks,
  rule = ratio,
  along = 'speed',
  tolerance = mps(0.01),
}
expect(front):hold()
-- refused at 17:15 `hold`
-- an expectation has no `hold`
-- hint: it has: holds_between, holds_nowhere, has_intervals, breaks_below, breaks_above, least_rises_along, least_falls_along, greatest_rises_along, greatest_falls_along, saves_at_least
