-- The double kiss: an object ball tight to the rail comes straight back and meets the cue ball, which
-- has stopped behind it. Steep banks kiss, flatter ones pass; a little room to the rail avoids it.

scenario {
  shows = "which banks kiss, how far off the rail is far enough, and what else still makes one",
}

local hall = equipment "nine-foot"
local ratio = rule.linear { slope = 2.2, reading = "groove" }

local function bank(contact, off_rail)
  return bank_shot {
    equipment = hall, contact = contact, rule = ratio, off_rail = off_rail, cue_distance = millimetres(1),
  }
end

local map = shots {
  over = { contact = span(0.5, 3.5, 0.25), off_rail = span(inches(0), inches(8), inches(0.5)) },
  shot = function(point)
    return bank(point.contact, point.off_rail), { speed = mps(3), send = "line" }
  end,
}
map:draw { x = "off_rail", y = "contact", title = "Straight banks at 3 m/s: where the balls kiss" }
expect(map:where { contact = 0.5, off_rail = { to = inches(4) } }):kisses()
expect(map:where { contact = { 2.5, 3, 3.5 } }):clears()
expect(map:where { off_rail = inches(8) }):clears()

-- Frozen to the rail, at any usual speed.
local frozen = shots {
  over = { contact = { 0.5, 2.5, 3, 3.5 }, speed = span(mps(2), mps(5), mps(1)) },
  shot = function(point)
    return bank(point.contact, inches(0)), { speed = point.speed, send = "line" }
  end,
  name = "frozen",
}
expect(frozen:where { contact = 0.5 }):kisses()
expect(frozen:where { contact = { 2.5, 3, 3.5 } }):clears()

-- The least room that avoids it shrinks as the bank gets flatter.
local last
for _, contact in { 0.5, 1, 1.5 } do
  local least = bank(contact, inches(0)):least_gap { speed = mps(3) }
  print(string.format("contact %.1f is clear from %.0f mm off the rail on", contact, least.off_rail:to "mm"))
  if last then
    expect_number(last - least.off_rail):within(millimetres(1), millimetres(300))
  end
  last = least.off_rail
end
local least = bank(0.5, inches(0)):least_gap { speed = mps(3) }.off_rail
expect(bank(0.5, least + millimetres(0.1)):play { speed = mps(3), send = "line" }):clears()
expect(bank(0.5, least - millimetres(0.1)):play { speed = mps(3), send = "line" }):kisses()
local angle = bank(1, inches(0)):least_angle { speed = mps(3) }
print(string.format("frozen banks are clear from contact %.2f on", angle.contact))
expect_number(angle.contact):within(0.6, 2.5)

-- A range without an answer gives its reason instead of failing.
local none = bank(0.5, inches(0)):least_gap { speed = mps(3), to = inches(1) }
print("within an inch:", none.why_not)
expect_that("no distance within an inch is enough, and it says so", none.off_rail == nil and none.why_not ~= nil)

-- A steep bank an inch off the rail kisses when struck straight; other strokes still make it.
local steep = bank_shot {
  equipment = hall, contact = 1, rule = ratio, off_rail = inches(1), cue_distance = inches(12),
}
local straight = steep:play { speed = mps(3.5), send = "line" }
straight:draw { name = "kiss", title = "A steep bank that kisses" }
local ways = steep:ways { speed = { mps(3), mps(4) }, tip_side = span(-0.3, 0.3, 0.3), tip_height = { -0.3, 0, 0.3 } }
print(ways.made, "of", ways.count, "strokes make it")
expect_number(ways.made):within(1, ways.count)
if ways.widest then
  local other = steep:play { stroke = ways.widest.stroke }
  other:draw { name = "another-way", title = "A stroke that still makes it" }
  expect(other):drops()
  expect(other):clears()
end
