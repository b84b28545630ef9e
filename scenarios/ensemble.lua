-- All the tables that yours could be, asked together: on how many a bank holds, which rule is best, where the
-- exact start lies, and how far off the rail a rule goes. Harbour Hall is invented; nobody measured it.

scenario {
  shows = "what is sure on a table that nobody measured, and what depends on it",
}

local hall = equipment "harbour-hall"
local wide = unmeasured_table(hall)    -- published ranges, and nothing else
local common = practice_table(hall)    -- those of them on which common practice comes true

-- Common practice has no source. A fact that chose the tables checks nothing; the others may.
print(string.format("Of %d wide tables %d had to be tried for %d by common practice; it comes true on %.1f of a hundred (twice the error: %.1f).",
  wide.members, common.tried, common.members, 100 * wide.all_choosing.share, 200 * wide.all_choosing.error))
for number, fact in ipairs(wide.facts) do
  local by_practice = common.facts[number]
  local there = by_practice.chose and "it chose the others" or string.format("%.0f of the others", 100 * by_practice.share)
  print(string.format("%s: true on %.0f of a hundred wide tables; %s", fact.told, 100 * fact.share, there))
end

-- Only where the grid is meant of all of them may its equipment be all of them.
local ratio = rule.linear { slope = 2.2, reading = "groove" }
local banks = grid {
  equipment = common,
  contact  = { 1.5, 2, 2.5, 3, 3.5 },
  off_rail = span(inches(0), inches(12), inches(3)),
  speed    = mps(3),
  spin     = "stun",
}
local shares = common:shares(banks, ratio)
shares:draw { x = "contact", y = "off_rail", name = "practice-shares" }
-- Frozen, at this speed, practice itself says that the rule holds: that is no check, so nothing is expected of it.
expect(shares:where { contact = 1.5, off_rail = inches(12) }):is_sure_to_miss()
expect(wide:shares(grid { equipment = wide, contact = 2, off_rail = inches(0), speed = mps(3), spin = "stun" }, ratio)):depends()

-- Which of these rules holds most often on all these tables, some way off the rail, where practice says nothing?
local off_rail = grid {
  equipment = common,
  contact = { 1.5, 2, 2.5, 3 },
  off_rail = span(inches(4), inches(8), inches(2)),
  speed = span(mps(2), mps(5), mps(1)),
  spin = "stun",
}
local ranking = common:rank(off_rail, {
  rule.linear { slope = 2.2, reading = "groove", name = "2.2" },
  rule.linear { slope = 2.174, reading = "groove", name = "2.174" },
  rule.linear { slope = 2.175, reading = "groove", name = "2.175" },
  rule.linear { slope = 2.1, reading = "groove", name = "2.1" },
  rule.mirror(),
})
print(ranking:sentence())
expect(ranking):ties_with_the_first("2.174")   -- so many tables can't tell the two apart

-- The start through the middle of the mouth, half a foot off the rail: not a number but a range.
local starts = common:exact_starts(grid {
  equipment = common, contact = span(1.5, 3.5, 0.5), off_rail = inches(6), speed = mps(4), spin = "stun",
})
starts:draw_lines { x = "contact", name = "practice-starts" }
local two = starts:at { contact = 2 }
print(string.format("Contact 2 starts at %.2f, nine times in ten from %.2f to %.2f.", two.middle, two.from, two.to))
expect(starts):slope_within(1.9, 2.4)
expect(starts:where { contact = 2 }):starts_within(3.8, 4.6)

-- How far off the rail does the rule go? The answer is a band.
local band = common:frontier {
  banks = grid {
    equipment = common, contact = { 1.5, 2, 2.5, 3 }, off_rail = span(inches(0), inches(16), inches(2)),
    speed = mps(3), spin = "stun",
  },
  rule = ratio, along = "off_rail", tolerance = inches(0.1),
}
for _, sentence in ipairs(band:sentences()) do print(sentence) end
band:draw { x = "contact", name = "practice-band" }
expect(band:where { contact = 1.5 }):misses_between(inches(12), inches(16))
