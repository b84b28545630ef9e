-- Where the groove rule start = 2.2 × contact holds on a nine-foot table, and what breaks it.
-- The hall is invented; its cloth is worn and its cushions are lively.

scenario {
  shows = "where 2.2 × contact holds in an invented hall, and how distance off the rail breaks it",
}

local hall  = equipment "harbour-hall"
local ratio = rule.linear { slope = 2.2, reading = "groove" }

local banks = sweep {
  on       = hall,
  pocket   = "corner",
  contact  = span(1.25, 3.5, 0.25),
  off_rail = { inches(0), inches(5), inches(10) },
  speed    = span(mps(2), mps(6), mps(0.25)),
  spin     = "stun",
}

local map = compare(banks, ratio)

map:draw { x = "speed", y = "contact", panels = "off_rail" }
map:where { contact = 2 }:draw_lines { x = "speed", y = "miss", series = "off_rail", name = "miss-by-speed" }

-- Frozen to the rail, speed hardly matters.
local frozen = map:where { off_rail = inches(0) }
expect(frozen:where { speed = mps(4.5) }):holds_at_least(0.5)

-- Off the rail a slow ball has begun to roll before it gets there, and goes long.
local slow = map:where { contact = 2, off_rail = inches(10), speed = mps(2) }
expect(slow):goes "long"
expect(slow):longer_than(map:where { contact = 2, off_rail = inches(10), speed = mps(6) })
expect(map:where { contact = 2, off_rail = inches(10) }):miss_falls_along "speed"
