-- A sweep for the night: too many banks to look at one by one, played in shards that can be
-- interrupted at any time. The hall is invented.
--
--   railproof sweep scenarios/overnight.lua --into out/night
--
-- plays it, and the same command goes on where it stopped. `--dry-run` estimates the cost.

scenario {
  shows = "two rules over contact, distance, speed and spin in an invented hall, as a plan to be swept",
}

local banks = grid {
  equipment = equipment "harbour-hall",
  pocket   = "corner",
  contact  = span(1, 4, 0.1),
  off_rail = span(inches(0), inches(20), inches(1)),
  speed    = span(mps(1.5), mps(7), mps(0.25)),
  roll     = span(0, 1, 0.1),
  running_side = span(-0.2, 0.2, 0.1),
  name     = "night",
}

local night = plan(banks, rule.linear { slope = 2.2, name = "2.2 to 1" }, rule.mirror { name = "mirror" })
expect_that("every combination is a point", night.points == 31 * 21 * 23 * 11 * 5)
print(tostring(night))

-- Whole shots for the night: what varies are keys of a layout's file (`--which 2` plays this plan).
local side = plan {
  layout = "shots/side-bank.yaml",
  over = {
    ["stroke.speed"] = span(mps(2), mps(5), mps(0.05)),
    ["stroke.tip_side"] = span(-0.3, 0.3, 0.05),
    ["balls.object.off_rail"] = span(inches(4), inches(14), inches(0.25)),
  },
  name = "side",
}
expect_that("every combination is a shot", side.points == 61 * 13 * 41)
print(tostring(side))
