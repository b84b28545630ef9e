-- What should you add to your rule off the rail, for a soft or firm stroke, for a ball that rolls, with side, and on your own
-- table? A small table to keep in the head, and what each of its rows gains. Player, banks and hall are invented.

scenario {
  shows = "what to add to a rule for the ball and for your table, and what that gains",
}

local hall = equipment "harbour-hall"
local ratio = rule.linear { slope = 2.2, reading = "groove", name = "2.2" }

-- Sixty banks of a made-up player tell how far their shots fall from what they meant.
local me = player_of { banks = "measured/misses.csv", on = hall, name = "the made-up player" }
print(me.sentence)
expect_that("their speed is told", me.spreads.speed.told)
expect_number(0.14):within(me.spreads.speed.from, me.spreads.speed.to)

-- On a table that is known, for every kind of ball.
local found = corrections { on = hall, player = me.player, rule = ratio, rolling = true, side = 0.2, balls = 1024 }
print(found.sentence)
expect_number(found.named.rolling):within(-0.5, -0.2)
expect_number(found.named.running):within(-0.6, -0.2)
expect_number(found.named.gain):within(0.05, 0.2)
for _, row in ipairs(found.rows) do
  expect_that("no more to remember than pays: " .. row.what, row.gain > -2 * row.gain_error)
end

-- On the table that a dozen banks tell of, the rule itself is off: first of all, take some off every start.
local mine = fit { banks = "measured/hall.csv", on = hall }
local on_mine = corrections { on = mine, player = me.player, rule = ratio, balls = 64 }
print(on_mine.sentence)
expect_number(on_mine.named.table):within(-0.4, -0.1)
expect_number(on_mine.named.gain):within(0.03, 0.3)
