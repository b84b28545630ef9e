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
map:where { contact = 2 }:draw_lines {
  x = "speed", y = "miss", series = "off_rail", name = "miss-by-speed",
}

-- Frozen to the rail, speed hardly matters for a contact up to two.
expect(map:where { off_rail = inches(0), contact = { to = 2 } }):holds()

-- Off the rail a slow ball has begun to roll before it gets there, and goes long; with more speed
-- it comes shorter and shorter, until the rule holds again.
local two = map:where { contact = 2, off_rail = inches(10) }
expect(two:where { speed = mps(2) }):goes "long"
expect(two:where { speed = { to = mps(4) } }):miss_falls_along "speed"
expect(two:where { speed = mps(5) }):holds()

-- The higher the contact number, the sooner the rule falls short.
expect(map:where { off_rail = inches(0), contact = 3.5 }):goes "short"
