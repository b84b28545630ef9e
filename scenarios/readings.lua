-- The same line has other numbers in the groove than through the sights. Whoever learns a rule in
-- one reading and plays it in the other aims somewhere else.

scenario {
  shows = "what a rule learnt in the groove does when its numbers are read through the sights",
}

local hall = equipment "nine-foot"
local groove = rule.linear { slope = 2.2, reading = "groove", name = "2.2 × contact, in the groove" }
local sight  = rule.linear { slope = 2.2, reading = "sight", name = "2.2 × contact, through the sights" }

local map = compare(
  grid {
    equipment = hall,
    contact  = span(1.25, 3.5, 0.25),
    off_rail = { inches(0), inches(3) },
    speed    = mps(4.25),
    spin     = "stun",
  },
  groove, sight
)

map:where { off_rail = inches(0) }:draw_lines { x = "contact", y = "miss", series = "rule", name = "miss-by-reading" }

for contact = 1.5, 3.5, 0.5 do
  local seen = line { equipment = hall, contact = contact, start = 2.2 * contact, reading = "groove" }
  print(string.format("groove %.2f from %.2f reads %.2f from %.2f through the sights",
    contact, 2.2 * contact, seen.sight.contact, seen.sight.start))
end

local frozen = map:where { off_rail = inches(0) }
expect(frozen:where { rule = groove }):holds()
expect(frozen:where { rule = sight }):goes "short"
