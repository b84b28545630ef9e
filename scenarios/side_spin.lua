-- Side spin. Running side adds to the travel along the rail, reverse side takes from it.

scenario {
  shows = "how running side lengthens a bank and reverse side shortens it",
}

local hall = equipment "nine-foot"
local map = compare(
  grid {
    equipment = hall,
    contact  = { 1.4, 2.1, 2.8, 3.4 },
    off_rail = { inches(0), inches(6) },
    speed    = mps(4.5),
    spin     = "stun",
    running_side = span(-0.4, 0.4, 0.1),
  },
  rule.linear { slope = 2.2, reading = "groove" }
)

map:draw { x = "running_side", y = "contact", panels = "off_rail" }

expect(map):miss_rises_along "running_side"
expect(map:where { off_rail = inches(0), running_side = 0 }):holds()
expect(map:where { running_side = 0.4 }):goes "long"
expect(map:where { running_side = -0.4, contact = { 1.4, 2.1 } }):goes "short"
-- On a steep line the cushion turns running and reverse side into nearly the same rebound.
expect(map:where { running_side = -0.4, contact = { 2.8, 3.4 } }):shorter_than(map:where { running_side = 0, contact = { 2.8, 3.4 } })
