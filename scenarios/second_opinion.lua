-- A second opinion: the compliant model plays the same banks by another method, a soft cushion
-- stepped in time. Its contact is planar and its method first order, so where the two agree says
-- more than where they differ.

scenario {
  shows = "where the default rail model and the compliant one give different verdicts",
}

local map = compare(
  grid {
    equipment = equipment "nine-foot",
    contact    = span(1.25, 3.5, 0.25),
    speed      = { mps(2), mps(2.5), mps(3), mps(3.5), mps(4) },
    spin       = "stun",
    rail_model = { "nose-and-cloth", "compliant" },
  },
  rule.linear { slope = 2.2, reading = "groove" }
)

map:draw_difference { of = "rail_model", x = "speed", y = "contact" }
map:where { contact = 2.25 }:draw_lines { x = "speed", y = "miss", series = "rail_model", name = "miss-by-model" }

-- Both find that a ball hit softly comes close to the pocket; they part as speed grows.
local soft = map:where { speed = mps(2.5) }
expect(soft:where { rail_model = "compliant" }):misses_within(millimetres(60))
expect(soft:where { rail_model = "nose-and-cloth" }):misses_within(millimetres(60))
