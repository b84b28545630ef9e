local hall = equipment 'harbour-hall'
local front = frontier {
  banks = grid {
    equipment = hall,
    rail_model = 'nose-only',
    contact = 2,
    off_rail = inches(4),
    speed = span(mps(1), mps(8), mps(0.5)),
    spin = 'stun',
  },
  rule = rule.linear { slope = 2.2 },
  along = 'speed',
  tolerance = mps(0.01),
}
print(front:say())
-- refused at 15:13 `say`
-- a frontier has no `say`
-- hint: `say` is called `sentence` here
