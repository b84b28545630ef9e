-- Follow and draw at the rail. A ball that rolls into the cushion comes off longer than one that
-- slides; one with backspin comes off shorter.

scenario {
  shows = "how follow lengthens a bank and draw shortens it",
}

local hall = equipment "nine-foot"
local map = compare(
  grid {
    equipment = hall,
    contact = { 1.4, 2.1, 2.8, 3.4 },
    speed   = { mps(2.5), mps(4.5) },
    roll    = span(-0.5, 0.5, 0.125),
  },
  rule.linear { slope = 2.2, reading = "groove" }
)

map:draw { x = "roll", y = "contact", panels = "speed" }
map:where { speed = mps(4.5) }:draw_lines { x = "roll", y = "miss", series = "contact", name = "miss-by-roll" }

expect(map:where { roll = { from = 0, to = 0.5 } }):miss_rises_along "roll"
expect(map:where { roll = { from = -0.25, to = 0 } }):miss_rises_along "roll"
expect(map:where { roll = 0.5 }):goes "long"
