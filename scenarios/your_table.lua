-- Your table: which cushions could it have, by the banks that were measured on it? Then a question is asked of
-- all of them at once. Harbour Hall is invented, and so are its measured banks: the numbers show the way to ask,
-- not the answer of your table.

scenario {
  shows = "what a dozen measured banks say about a table, and where its answers are sure",
}

local hall = equipment "harbour-hall"

-- The banks: a CSV file (`railproof fit --template` writes an empty one).
local mine = fit { banks = "measured/hall.csv", on = hall }

print(string.format("Without the banks the rule is from %.2f to %.2f x contact, with them from %.2f to %.2f.",
  mine.slope_before.from, mine.slope_before.to, mine.slope.from, mine.slope.to))
for number, bank in ipairs(mine.next) do
  print("measure next, " .. number .. ": " .. bank)
end

-- The same as a sheet to print and to write on.
mine:draw_next {}

-- Each bank as it was expected and as it was seen; each number before and after the banks.
mine:draw_banks {}
mine:draw_numbers {}

-- On how many of the tables that this one could be does its own rule hold? `mine.middle` is the middle one of them.
local own = rule.linear { slope = math.floor(100 * mine.slope.middle + 0.5) / 100, reading = "groove" }
local shares = mine:shares(grid {
  equipment = mine.middle,
  contact  = { 1.5, 2, 2.5, 3, 3.5 },
  off_rail = span(inches(0), inches(12), inches(2)),
  speed    = mps(3),
  spin     = "stun",
}, own)
shares:draw { x = "contact", y = "off_rail", name = "sure-or-not" }

-- A dozen banks halve the width of the rule, and more.
expect_number(mine.slope.to - mine.slope.from):within(0, 0.5 * (mine.slope_before.to - mine.slope_before.from))
-- A foot off the rail at this speed a sliding ball has picked up roll: off small contacts it goes long on any of them.
expect_number(shares:at { contact = 1.5, off_rail = inches(12) }.share):within(0, 0.05)
-- In between it depends on the table.
expect_number(shares:states().depends):within(1, shares:count())
