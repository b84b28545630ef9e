-- Where the groove rule start = 2.2 × contact holds on a nine-foot table, and what breaks it.
-- The hall is invented; its cloth is worn and its cushions are lively.

scenario {
  shows = "where 2.2 × contact holds in an invented hall, and how distance off the rail breaks it",
}

local hall  = equipment "harbour-hall"
local ratio = rule.linear { slope = 2.2, reading = "groove" }

local banks = grid {
  equipment = hall,
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

-- Frozen to the rail, speed hardly matters.
local frozen = map:where { off_rail = inches(0) }
expect(frozen):share_at_least(0.9)
expect(frozen:where { speed = { from = mps(3), to = mps(5) } }):holds()

-- Off the rail a slow ball has begun to roll before it gets there, and goes long.
local ten_inches = map:where { contact = 2, off_rail = inches(10) }
expect(ten_inches:where { speed = mps(2) }):goes "long"
expect(ten_inches:where { speed = { from = mps(2), to = mps(4.75) } }):miss_falls_along "speed"
expect(ten_inches:where { speed = mps(6) }):holds()

-- The same numbers as a stored text, so that a change of a millimetre is noticed. It notices yours
-- too: leave this line out of a copy whose numbers you change.
expect(map):matches_baseline("baselines/first.baseline", { within = millimetres(0.5) })
