-- Two rails, and kicks: the ball comes off one rail, then off another, and then into the pocket. The
-- directions that do it are solved for; numbers count from the target pocket and run on past a rail's
-- end. The speed of the ball moves the first number, for a soft ball has begun to roll by then.

scenario {
  shows = "two-rail banks and a kick, solved for, and how speed moves their numbers",
}

local hall = equipment "nine-foot"
local from = { position = { metres(0.3), metres(-0.3) } }

local function two_rails(speed, roll)
  return route {
    equipment = hall, from = from, rails = { "foot", "left" }, pocket = "head-right", speed = speed, roll = roll,
  }
end

for _, speed in { mps(3), mps(4), mps(5) } do
  local ways = two_rails(speed, 1)
  expect_number(ways.count):within(1, 4)
  for _, way in ways.starts do
    print(string.format("%s sets out at %.1f deg: foot rail at %.2f, left rail at %.2f, %s", tostring(speed),
      way.direction:to "deg", way.numbers[1].number, way.numbers[2].number, way.verdict))
    expect_that("it comes off the foot rail and then the left", way.numbers[1].rail == "foot" and way.numbers[2].rail == "left")
    expect(way.shot):misses_within(millimetres(0.1))
  end
end
two_rails(mps(4), 1).starts[1].shot:draw { name = "two-rails", title = "Foot rail, left rail, corner" }

-- The room for an error of direction: a sweep of the aim around the one that was solved.
local way = two_rails(mps(4), 1).starts[1]
local around = shots {
  over = { aim_off = span(milliradians(-20), milliradians(20), milliradians(2)), speed = span(mps(3), mps(5), mps(0.25)) },
  shot = function(point)
    return lay {
      equipment = hall, pocket = "head-right",
      balls = {
        object = {
          position = from.position,
          launch = { speed = point.speed, roll = 1, heading = { angle = way.direction + point.aim_off } },
        },
      },
    }
  end,
}
around:draw { x = "speed", y = "aim_off", title = "Two rails: how far off the direction may be" }
expect(around:where { aim_off = milliradians(0), speed = mps(4) }):share_within(1, 1)
expect(around):share_within(0.02, 0.6)

-- A kick: the cue ball off a rail first, then full into the object ball, past a ball in the way.
local hidden = lay {
  equipment = hall, pocket = "foot-right",
  balls = {
    cue    = { position = { metres(-0.6), metres(-0.35) } },
    object = { on_rail = "foot", number = 1.6, off_rail = inches(10) },
    block  = { between = { "cue", "object" } },
  },
}
local kick = hidden:kick { rails = { "left" }, speed = mps(4), tip_height = 0.2 }
expect_number(kick.count):within(1, 2)
local stroke = kick.strokes[1]
print(string.format("kick off the left rail at %.2f: %s", stroke.numbers[1].number, stroke.verdict))
local kicked = hidden:play { stroke = stroke.stroke }
kicked:draw { name = "kick", title = "A kick past a ball in the way" }
local met
for _, event in kicked:events() do
  if event.kind == "ball" and not met then
    met = event
  end
end
expect_that("the cue ball meets the object ball first", met.ball == "object" or met.other == "object")
