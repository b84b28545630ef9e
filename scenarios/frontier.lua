-- How hard must a ball be hit from there? A frontier finds the edges of one rule, over speed and distance off
-- the rail, by a few thousand banks where a grid as fine takes more than a million. Harbour Hall is
-- invented, and so is its cushion: the numbers show the way to ask, not the answer of your table.

scenario {
  shows = "from which speed to which a rule holds, the further the ball is off the rail",
}

local hall = equipment "harbour-hall"
local groove = rule.linear { slope = 2.2, reading = "groove" }

-- A frontier looks at the values of its grid first, and follows the edges in between.
local banks = grid {
  equipment = hall,
  contact  = { 1.5, 2, 2.5, 3 },
  off_rail = span(inches(0), inches(24), inches(3)),
  speed    = span(mps(1), mps(9), mps(0.5)),
  spin     = "stun",
}

local front = frontier {
  banks = banks, rule = groove,
  along = "speed", tolerance = mps(0.01),
  over = "off_rail", over_tolerance = inches(0.05),
}

front:draw { panels = "contact", name = "speed-over-distance" }
print(front:where { contact = 2, off_rail = { inches(0), inches(12), inches(24) } }.sentence)

-- Further off the rail it must be hit harder: a slow ball rolls by the time it meets the rail, and its path
-- bends soon after it. Above the upper edge the tired cushion gives back too little.
expect(front):least_rises_along "off_rail"
expect(front:where { off_rail = { from = inches(6), to = inches(24) } }):breaks_below "long":breaks_above "long"
expect(front:where { contact = 2, off_rail = inches(12) }):has_intervals(1):holds_between(mps(4), mps(7))
expect(front):saves_at_least(50)

-- Along another input: how much follow or draw does a line bear? From draw that makes it short to follow
-- that makes it long; one line comes back to the pocket with more follow still.
local spins = frontier {
  banks = grid { equipment = hall, contact = span(1.25, 3.25, 0.25), speed = { mps(3), mps(5) }, roll = span(-1, 1, 0.125) },
  rule = groove, along = "roll", tolerance = 0.001, name = "spins",
}
spins:draw { x = "contact", panels = "speed", name = "roll-by-contact" }
print(spins:where { contact = { 1.5, 2 }, speed = mps(5) }.sentence)
expect(spins):breaks_below "short":breaks_above "long":saves_at_least(50)
expect(spins:where { contact = 2, speed = mps(5) }):has_intervals(2)
print(string.format("%d and %d banks played; grids as fine take %d and %d",
  front.banks_played, spins.banks_played, front.dense_banks, spins.dense_banks))
