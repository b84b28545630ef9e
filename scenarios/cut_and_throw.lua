-- Cutting an object ball into a bank. Aimed by geometry alone, the cue ball's friction throws the
-- object ball off the line and leaves side on it: a ball cut to the outside goes short, one cut to the
-- inside goes long. Three remedies: aim so that the throw is in the aim, overcut until throw and side
-- cancel at the pocket, or gear: so much side that the balls do not rub at all.
-- An outside cut is positive: the cue ball comes from the side on which the pocket is.

scenario {
  shows = "how throw and transferred side spoil a cut bank, and what overcutting and gearing do about it",
}

local hall  = equipment "nine-foot"
local ratio = rule.linear { slope = 2.2, reading = "groove" }

local function bank(cut)
  return bank_shot {
    equipment = hall, contact = 2.5, rule = ratio, off_rail = inches(6), cue_distance = inches(14), cut = cut,
  }
end

-- Aimed by geometry alone, at every cut and speed.
local by_geometry = shots {
  over = { cut = span(degrees(-30), degrees(30), degrees(5)), speed = span(mps(3), mps(5), mps(0.5)) },
  shot = function(point)
    return bank(point.cut), { speed = point.speed, ghost = "line" }
  end,
  name = "by-geometry",
}
by_geometry:draw {
  x = "cut", y = "speed", name = "aimed-by-geometry",
  title = "A bank cut by geometry alone: outside goes short, inside long",
}
expect(by_geometry:where { cut = { from = degrees(10) }, speed = { from = mps(3.5) } }):goes "short"
expect(by_geometry:where { cut = { to = degrees(-10) } }):goes "long"
expect(by_geometry:where { cut = { from = degrees(-15), to = degrees(15) } }):miss_falls_along "cut"

-- The same with gearing side: throw and transfer are gone, and the rule's line holds as for a lone ball.
local geared = shots {
  over = { cut = span(degrees(-30), degrees(30), degrees(5)), speed = mps(4) },
  shot = function(point)
    local shot = bank(point.cut)
    return shot, { stroke = shot:gear { speed = point.speed }.stroke }
  end,
  name = "geared",
}
expect(geared:where { cut = { from = degrees(-20), to = degrees(20) } }):share_within(0.8, 1)

-- One cut looked at closely.
local outside = bank(degrees(12))
local plain   = outside:play { speed = mps(4), ghost = "line" }
local aimed   = outside:play { speed = mps(4), send = "line" }
local gear    = outside:gear { speed = mps(4) }
local over    = outside:overcut { speed = mps(4) }
local correction = outside:aim { speed = mps(4) }.correction
print(string.format("throw and squirt take an aim of %.1f mrad", correction:to "mrad"))
print(string.format("gearing takes a tip offset of %.2f", gear.tip_side))
print(string.format("overcut by %.1f mrad, which is %.1f mm at the object ball", over.overcut:to "mrad", over.at_ball:to "mm"))

expect(plain):goes "short"
-- With the throw in the aim the ball leaves on the line; the side it took over still shortens it.
expect(aimed):longer_than(plain)
local geared_shot = outside:play { stroke = gear.stroke }
expect(geared_shot):drops()
expect(geared_shot):longer_than(aimed)
local overcut = outside:play { stroke = over.stroke }
expect(overcut):drops()
expect(overcut):misses_within(millimetres(0.1))
expect_number(over.overcut):within(milliradians(0), milliradians(40))

plain:draw { name = "plain", title = "An outside cut aimed by geometry alone" }
overcut:draw { name = "overcut", title = "The same, overcut" }

-- Which is easier to hit? The window of aims, and the effect of a little too much side.
local both = outside:compare { speed = mps(4) }
print(string.format("window of aims: overcut %.1f mrad, gearing %.1f mrad", both.overcut.window:to "mrad",
  both.gearing.window:to "mrad"))
print(string.format("for each tenth of side: overcut %.0f mm, gearing %.0f mm", both.overcut.miss_per_tenth_side,
  both.gearing.miss_per_tenth_side))
expect_number(both.overcut.window):within(milliradians(1), milliradians(30))
expect_number(both.gearing.window):within(milliradians(1), milliradians(30))
