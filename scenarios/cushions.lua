-- Cushions that agree on frozen banks, where they were calibrated, and disagree off the rail.

scenario {
  shows = "how far cushions that agree on frozen banks disagree a hand's width off the rail",
}

local base = equipment "nine-foot"
local halls = { base }
for _, name in { "steep-fading", "even-bounce", "grippy-nose", "slick-nose" } do
  table.insert(halls, base:with(cushion("cushions/" .. name)))
end

local map = compare(
  grid {
    equipment = halls,
    contact  = { 1.5, 2, 2.5, 3, 3.5 },
    off_rail = { inches(0), inches(4), inches(12) },
    speed    = span(mps(2), mps(6), mps(0.5)),
    spin     = "stun",
  },
  rule.linear { slope = 2.2, reading = "groove" }
)

map:where { off_rail = inches(12) }:draw { x = "speed", y = "contact", panels = "equipment" }

-- All of them hold where they were calibrated.
expect(map:where { off_rail = inches(0), contact = { 1.5, 2.5, 3.5 }, speed = { mps(3), mps(4), mps(5) } }):holds()
-- A foot off the rail they all go long at low speed.
expect(map:where { off_rail = inches(12), speed = mps(2) }):goes "long"
