-- A table of known lines, and a ball between two of them. Shift the nearest line parallel, or shift
-- its far end twice as far as its near end? Or go straight between the two?

scenario {
  shows = "how far each way of going between known lines is from the exact start number",
}

local hall = equipment "nine-foot"
local known = { { 1.2, 2.64 }, { 1.9, 4.18 }, { 2.6, 5.72 }, { 3.3, 7.26 } }

-- Named and ordered as in the report below, so that both pictures show each way alike.
local straight     = rule.lines { lines = known, way = "interpolate", name = "interpolated" }
local proportional = rule.lines { lines = known, way = "proportional", ratio = 2, name = "shifted 2 to 1" }
local parallel     = rule.lines { lines = known, way = "parallel", name = "shifted parallel" }

local banks = grid {
  equipment = hall,
  contact = span(1.2, 3.3, 0.05),
  speed   = mps(4.25),
  spin    = "stun",
}
local map = compare(banks, straight, proportional, parallel)

map:draw_lines { x = "contact", y = "miss", series = "rule", name = "miss-between-lines" }

-- The same in diamonds, against the exact start numbers.
local errors = rule.ways { lines = known, ratio = 2, reference = exact_starts(banks), equipment = hall }
errors:draw_lines { name = "error-between-lines" }

local halfway = map:where { contact = 1.55 }
expect(halfway:where { rule = proportional }):holds()
expect(halfway:where { rule = straight }):holds()
-- Halfway between two lines the nearest is a toss-up: shifted from the upper line (here) the parallel
-- line starts too far out and goes long; just below the middle it is shifted from the lower and goes short.
expect(halfway:where { rule = parallel }):goes "long"
expect(map:where { contact = 1.5, rule = parallel }):goes "short"
expect(map:where { rule = straight }):holds()
