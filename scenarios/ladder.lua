-- A ladder of lines, a third of a diamond apart, on the four table sizes that ship.
-- Everything is counted in diamonds, so one might expect the same numbers on every size. The ball
-- stays as large as it is, though: on a smaller table the groove and the mouth are larger in diamonds.

scenario {
  shows = "exact start numbers for a ladder of lines on four table sizes, and one slope for each",
}

local tables = {
  equipment "nine-foot", equipment "eight-foot", equipment "home-eight-foot", equipment "seven-foot",
}

local rungs = {}
for thirds = 3, 11 do
  table.insert(rungs, thirds / 3)
end

local banks = grid {
  equipment = tables,
  pocket = "corner",
  contact = rungs,
  off_rail = inches(0),
  speed = mps(3.75),
  spin = "stun",
}

local ladder = compare(banks, rule.linear { slope = 2.2, reading = "groove" })
ladder:draw { x = "contact", y = "equipment" }
ladder:draw_lines { x = "contact", y = "miss", series = "equipment", name = "miss-by-size" }

-- The exact numbers, one straight line through each size's ladder.
local starts = exact_starts(banks)
for _, hall in tables do
  local fit = starts:where { equipment = hall.name }:fit()
  print(string.format("%s: start = %.3f × contact, worst residual %.3f diamond", hall.name, fit.slope, fit.worst))
end

local nine = starts:where { equipment = tables[1].name }:fit()
expect_number(nine.slope):within(2.15, 2.25)
expect(ladder:where { equipment = tables[1].name, contact = { from = 1.3, to = 3.5 } }):holds()
