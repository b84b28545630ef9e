-- Side on the cue ball passes on to the object ball, the other way round, as between two gears: right
-- side leaves left side on the object ball. Here the object ball travels to the shooter's right along
-- the rail, so left side on it works against its travel: right side shortens the bank, left lengthens it.

scenario {
  shows = "right side on the cue ball leaves left on the object ball, and the bank goes short",
}

local hall = equipment "nine-foot"
local ratio = rule.linear { slope = 2.2, reading = "groove" }

local sides = shots {
  over = { contact = { 2, 2.5, 3 }, side = span(-0.3, 0.3, 0.1) },
  shot = function(point)
    local shot = bank_shot {
      equipment = hall, contact = point.contact, rule = ratio, off_rail = inches(4), cue_distance = inches(12),
    }
    -- Throw and squirt are in the aim: the object ball leaves along the line every time.
    return shot, { speed = mps(4), tip_side = point.side, send = "line" }
  end,
}
sides:draw_lines {
  x = "side", y = "miss", series = "contact", name = "miss-by-side",
  title = "Side on the cue ball: right of the middle is positive",
}
-- Every right side is shorter than none, every left side longer. More side does not carry over more:
-- the surfaces slip faster, and friction between balls falls with the speed at which they slip.
for _, side in { 0.1, 0.2, 0.3 } do
  expect(sides:where { side = side }):shorter_than(sides:where { side = 0 })
  expect(sides:where { side = -side }):longer_than(sides:where { side = 0 })
end
expect(sides:where { side = 0.1 }):shorter_than(sides:where { side = 0.3 })

-- The side that the object ball carries off.
local straight = bank_shot {
  equipment = hall, contact = 2.5, rule = ratio, off_rail = inches(4), cue_distance = inches(12),
}
local function carried(side)
  local shot = straight:play { speed = mps(4), tip_side = side, send = "line" }
  for _, event in shot:events() do
    if event.kind == "ball" then
      return shot:at("object", event.time).spin_side
    end
  end
  error("the balls never meet")
end
-- Against the clock is positive, as right side turns the ball that is struck.
expect_number(carried(0.3)):within(-0.3, -0.005)
expect_number(carried(-0.3)):within(0.005, 0.3)
expect_number(carried(0)):near(0, 1e-6)

straight:play { speed = mps(4), tip_side = 0.3, send = "line" }:draw {
  name = "right-side", title = "Right side on the cue ball: the bank goes short",
}
