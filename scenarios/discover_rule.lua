-- Which rule makes the most balls for its effort? All rules that you can work out in your head are tried for one player on
-- one table, and what is told comes from balls that took no part in the search. The players are invented.

scenario {
  shows = "the rules that a club player makes most balls with, from the simplest to the best",
}

local hall = equipment "nine-foot"
local me = player "club"

local found = discover { on = hall, player = me }
print(found:sentence())
found:draw { name = "effort-and-balls" }

-- Among rules of one slope and nothing more to remember, one near 2.2 across the grooves is best.
for _, one in ipairs(found:rules()) do
  if one.steps + one.numbers == 5 then
    expect_number(one.slope):within(2.15, 2.25)
    expect_that("across the grooves, without an offset", one.reading == "groove" and one.offset == 0)
  end
end
-- The best rules add corrections for the ball; all of them together are worth a few balls of a hundred.
expect_number(found.named.chance):within(0.25, 0.4)
expect_number(found.named.slope):within(2, 2.4)
-- No rule can do better than every ball from its own best start, read as well as by the flattest rule.
expect_number(found.best_possible - found.named.chance):within(0, 0.25)

-- The same rules beside each other, ball by ball, where people really differ: some way off the rail.
local banks = grid {
  equipment = hall,
  contact  = span(1, 4, 0.25),
  off_rail = { inches(0), inches(4), inches(8), inches(12) },
  speed    = { "soft", "medium", "firm" },
  spin     = "stun",
}
local chances = me:chances(banks,
  rule.linear { slope = 2.2, reading = "groove", name = "2.2" },
  rule.linear { slope = 2.25, reading = "groove", name = "2.25" },
  rule.linear { slope = 2, offset = 0.5, reading = "groove", name = "twice and half" },
  rule.mirror { name = "equal angles" })
local ranking = chances:rank()
print(ranking:sentence())
expect(ranking):ranks_first("2.2")

local by_2_2 = chances:where { rule = "2.2" }
by_2_2:where { speed = "medium" }:draw { x = "contact", y = "off_rail", name = "chance-medium" }
by_2_2:where { off_rail = inches(0) }:draw_lines { x = "contact", series = "speed", name = "chance-frozen" }
-- A frozen ball hit firmly is made every third time at least, from contact 1.5 to 3.
expect(by_2_2:where { off_rail = inches(0), speed = "firm", contact = { 1.5, 2, 2.5, 3 } }):chance_at_least(0.33)
-- A soft one a foot off is hopeless by it.
expect(by_2_2:where { off_rail = inches(12), speed = "soft" }):chance_at_most(0.1)
