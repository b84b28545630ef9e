-- Bank the ball or cut it? Every cut and every bank off one rail is played by a player who misjudges and misses, with
-- kisses, scratches and other balls. The hall and the players are invented.

scenario {
  shows = "where a player should bank a ball rather than cut it",
}

local hall = equipment "harbour-hall"
local me = player "club"

-- The cut goes in, and the cue ball often follows into the side pocket: bank it.
local open = lay {
  equipment = hall,
  balls = {
    cue    = { position = { centimetres(-20), centimetres(-40) } },
    object = { position = { centimetres(30), centimetres(20) } },
  },
}
local found = open:bank_or_cut { player = me, speed = mps(3) }
print(found.report)
expect_that("the bank is better", found.better == "bank")
expect_that("off the left rail into the foot-right pocket",
  found.bank.rail == "left" and found.bank.pocket == "foot-right")
expect_number(found.cut.scratched):within(0.2, 0.4)

-- Who works the line out by a rule has to know how wrong the rule is off the rail, hit at this cut.
local by_rule = open:bank_or_cut {
  player = me, speed = mps(3), rule = rule.linear { slope = 2.2, reading = "groove", name = "2.2" },
}
print(by_rule.sentence)
expect_that("by the rule the cut is better", by_rule.better == "cut")

-- A ball between the object ball and its pocket takes the cut away.
local blocked = lay {
  equipment = hall,
  balls = {
    cue    = { position = { centimetres(-20), centimetres(-40) } },
    object = { position = { centimetres(30), centimetres(20) } },
    seven  = { position = { centimetres(60), centimetres(31) } },
  },
}
local only_bank = blocked:bank_or_cut { player = me, speed = mps(3) }
print(only_bank.sentence)
expect_that("the bank is left", only_bank.better == "bank")
for _, way in ipairs(only_bank.ways) do
  if way.kind == "cut" and way.pocket == "foot-left" then
    expect_that("the seven is in the way", way.why_not == "the ball meets seven on its way")
  end
end

-- Wherever the object ball may lie, with the cue ball where it is.
local map = open:bank_or_cut_map { player = me, speed = mps(3) }
print(map.sentence)
map:draw { name = "bank-or-cut-club" }
expect_number(map.bank):within(3, 20)
expect_that("most balls are cut", map.cut > map.bank)

local beginner = open:bank_or_cut_map { player = player "beginner", speed = mps(3) }
print(beginner.sentence)
beginner:draw { name = "bank-or-cut-beginner" }
