-- All lines of a rule that multiplies meet in one point behind the rail. Where does it lie on this table, how good
-- is it, and how sure is that on a table that nobody measured? Harbour Hall is invented.

scenario {
  shows = "the one spot behind the rail at which every frozen ball may be aimed",
}

local hall = equipment "harbour-hall"
local spot = one_spot { on = hall, speed = mps(4) }
print(spot.sentence)
expect_number(spot.slope):within(2.1, 2.35)
expect_number(spot.largest_error):within(0, 0.1)

-- A spot that may stand aside of the zero line serves better, and is harder to find.
local aside = one_spot { on = hall, speed = mps(4), aside = true }
print(aside.sentence)
expect_number(aside.largest_error):within(0, spot.largest_error)

-- Not measured, the hall's own spot could lie anywhere in a hand's breadth or more.
local could_be = one_spot { on = practice_table(hall), speed = mps(4) }
print(could_be.sentence)
expect_number(could_be.slope_to - could_be.slope_from):within(0.01, 0.3)

-- Aiming at the spot is playing its rule.
local frozen = grid {
  equipment = hall, contact = { 1.5, 2, 2.5, 3, 3.5 }, off_rail = inches(0), speed = mps(4), spin = "stun",
}
local played = compare(frozen, spot.rule)
expect(played):holds()
played:draw_lines { x = "contact", y = "miss", name = "aimed-at-the-spot" }
