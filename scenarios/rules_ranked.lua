-- Several rules on the same banks, ranked by how many banks hold and how large the misses are.

scenario {
  shows = "which aiming rule serves a sliding ball close to the rail best",
}

local groove   = rule.linear { slope = 2.2, reading = "groove" }
local doubling = rule.linear { slope = 2, reading = "sight", name = "double the contact, through the sights" }
local third    = rule.linear { slope = 2, offset = 1/3, reading = "groove" }
local mirror   = rule.mirror {}
-- A rule of one's own: any function of the contact number.
local bent     = rule.func { name = "bent line", reading = "groove", start = function(contact)
  return 2.25 * contact - 0.02 * contact * contact
end }

local map = compare(
  grid {
    equipment = equipment "nine-foot",
    contact  = span(1.25, 3.5, 0.25),
    off_rail = { inches(0), inches(2) },
    speed    = { mps(3.5), mps(4.5), mps(5.5) },
    spin     = "stun",
  },
  groove, doubling, third, mirror, bent
)

map:where { off_rail = inches(0) }:draw { x = "speed", y = "contact", panels = "rule" }
map:where { off_rail = inches(0), speed = mps(4.5) }:draw_lines { x = "contact", y = "miss", series = "rule", name = "miss-by-rule" }

local frozen = map:where { off_rail = inches(0) }
expect(frozen:where { rule = groove }):holds()
expect(frozen:where { rule = mirror }):goes "short"
expect(frozen:where { rule = doubling }):shorter_than(frozen:where { rule = mirror })
