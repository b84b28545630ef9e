-- Side spin. Running side adds to the travel along the rail, reverse side takes from it.

scenario {
  shows = "how running side lengthens a bank and reverse side shortens it",
}

local hall = equipment "nine-foot"
local map = compare(
  sweep {
    on       = hall,
    contact  = { 1.4, 2.1, 2.8, 3.4 },
    off_rail = { inches(0), inches(6) },
    speed    = mps(4.5),
    spin     = "stun",
    side     = span(-0.4, 0.4, 0.1),
  },
  rule.linear { slope = 2.2, reading = "groove" }
)

map:draw { x = "side", y = "contact", panels = "off_rail" }

expect(map):miss_rises_along "side"
expect(map:where { off_rail = inches(0), side = 0 }):holds()
expect(map:where { side = 0.4 }):goes "long"
expect(map:where { side = -0.4 }):misses_short_by_at_least(millimetres(20))
