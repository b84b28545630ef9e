-- Other banks, counted from their target pocket: into a side pocket off the long rail across from it,
-- and off an end rail into a corner. Mirror geometry fails in both, for a cushion does not reflect like
-- a mirror; the groove rule 2.2 × contact, made for the corner pocket, does well for the side pocket
-- too. The end-rail bank has twice as far to run, and so runs longer than the long-rail bank.

scenario {
  shows = "banks into the side pocket and off the end rail, by two rules and solved for",
}

local hall  = equipment "nine-foot"
local rules = { groove = rule.linear { slope = 2.2, reading = "groove" }, mirror = rule.mirror {} }

local function bank(rail, pocket, point)
  return bank_shot {
    equipment = hall, rail = rail, pocket = pocket, contact = point.contact, rule = rules[point.rule],
    off_rail = inches(4), cue_distance = inches(8),
  }, { speed = point.speed, send = "line" }
end

-- Numbers for a side pocket are counted from its own centre line.
local side = shots {
  over = { contact = span(1, 1.75, 0.25), speed = span(mps(2.5), mps(5), mps(0.5)), rule = { "groove", "mirror" } },
  shot = function(point)
    return bank("long", "side", point)
  end,
  name = "side-pocket-shots",
}
side:draw {
  x = "speed", y = "contact", panels = "rule", name = "side-pocket-rules", title = "Straight banks into the side pocket",
}
expect(side:where { rule = "groove" }):share_within(0.85, 1)
expect(side:where { rule = "mirror" }):goes "short"

-- Off the end rail and off the long rail at the same numbers, speeds and distances.
local both = shots {
  over = { contact = { 1.5, 1.625, 1.75 }, speed = span(mps(3), mps(5), mps(0.5)), rule = "groove", rail = { "end", "long" } },
  shot = function(point)
    return bank(point.rail, "corner", point)
  end,
  name = "end-rail-shots",
}
both:where { contact = 1.75 }:draw_lines {
  x = "speed", y = "miss", series = "rail", name = "end-and-long-rail", title = "The end-rail bank runs longer",
}
expect(both:where { rail = "end" }):longer_than(both:where { rail = "long" })

-- Every direction from a place that goes off the one rail and through the middle of the mouth.
local from = { position = { metres(0.45), metres(-0.25) } }
local ways = {
  { rail = "left", pocket = "side-right", speed = mps(3), name = "side-pocket" },
  { rail = "foot", pocket = "head-right", speed = mps(4), name = "end-rail" },
}
for _, way in ways do
  local found = route {
    equipment = hall, from = from, rails = { way.rail }, pocket = way.pocket, speed = way.speed, roll = 1,
  }
  expect_number(found.count):within(1, 2)
  local first = found.starts[1]
  print(string.format("off the %s rail at %.2f: %s", way.rail, first.numbers[1].number, first.verdict))
  expect(first.shot):misses_within(millimetres(0.1))
  expect(first.shot):drops()
  first.shot:draw {
    name = way.name, title = "Off the " .. way.rail .. " rail into the " .. way.pocket .. " pocket",
  }
end

-- An impossible way gives its reason.
local none = route { equipment = hall, from = from, rails = { "left" }, pocket = "side-right", speed = mps(0.3) }
print("at a crawl:", none.why_not)
expect_that("there is no way at a crawl, and it says why", none.starts == nil and none.why_not ~= nil)

-- A layout in a file of its own, as the command `railproof shot` takes it, is held to its outcome.
local kept = play_file "shots/side-bank.yaml"
expect(kept):drops()
kept:draw { name = "kept-in-a-file", title = "A side-pocket bank from a layout's file" }
