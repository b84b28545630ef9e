-- Speed against distance off the rail, for one line: how hard must it be hit from there?

scenario {
  shows = "from which speed one line holds, the further the ball is off the rail",
}

local hall = equipment "nine-foot"
local groove = rule.linear { slope = 2.2, reading = "groove" }

local banks = grid {
  equipment = hall,
  contact  = 2.25,
  off_rail = span(inches(0), inches(21), inches(1.5)),
  speed    = span(mps(1.5), mps(7), mps(0.25)),
  spin     = "stun",
}

local map = compare(banks, groove)
map:draw { x = "off_rail", y = "speed" }

-- The least speed at a few distances, to a millionth.
for _, distance in { inches(3), inches(9), inches(15) } do
  local least = least_speed {
    equipment = hall, contact = 2.25, rule = groove, off_rail = distance, from = mps(1.5), to = mps(9), spin = "stun",
  }
  print(string.format("%s off the rail: holds from %.2f m/s", tostring(distance), least:to "m/s"))
end

expect(map:where { off_rail = inches(0), speed = { from = mps(2.5), to = mps(6) } }):holds()
expect(map:where { off_rail = inches(15), speed = mps(2) }):goes "long"
expect(map:where { off_rail = inches(15), speed = { from = mps(2), to = mps(5) } }):miss_falls_along "speed"
expect(map:where { off_rail = { from = inches(0), to = inches(15) }, speed = mps(3) }):miss_rises_along "off_rail"
