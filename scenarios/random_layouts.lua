-- Many random layouts: which way of aiming makes the most banks? Every layout is drawn by a seeded
-- generator, so that the same numbers come out everywhere. Distances, cuts, lines and two balls that
-- may stand in the way are drawn; all of it is invented.

scenario {
  shows = "in random cut banks, geometry alone makes few, the throw in the aim more, gearing most",
}

local hall = equipment "nine-foot"
local ratio = rule.linear { slope = 2.2, reading = "groove" }

local function between(low, high)
  return low + (high - low) * math.random()
end

-- The same number always gives the same layout.
local function layout(number)
  math.randomseed(number)
  local contact  = between(2, 3.25)
  local off_rail = inches(between(1, 8))
  local cue_distance = inches(between(6, 18))
  local cut = degrees(between(-25, 25))
  -- Two balls somewhere in the other half, and again where they would lie in a ball or off the table.
  for _ = 1, 50 do
    local function somewhere()
      return { position = { metres(between(-1.2, 0.2)), metres(between(-0.55, 0.55)) } }
    end
    local ok, laid = pcall(bank_shot, {
      equipment = hall, contact = contact, rule = ratio, off_rail = off_rail, cue_distance = cue_distance,
      cut = cut, others = { guard = somewhere(), watcher = somewhere() },
    })
    if ok then
      return laid
    end
  end
  error("no room for the balls")
end

local set = shots {
  over = { layout = span(1, 150, 1), way = { "geometry", "throw", "gearing" } },
  shot = function(point)
    local laid = layout(point.layout)
    if point.way == "geometry" then
      return laid, { speed = mps(4), ghost = "line" }
    elseif point.way == "throw" then
      return laid, { speed = mps(4), send = "line" }
    end
    return laid, { stroke = laid:gear { speed = mps(4) }.stroke }
  end,
}

local share = {}
for _, way in { "geometry", "throw", "gearing" } do
  share[way] = set:where { way = way }:share()
  print(string.format("%s makes %.0f in 100", way, 100 * share[way]))
end
expect(set:where { way = "geometry" }):share_within(0.02, 0.6)
expect(set:where { way = "gearing" }):share_within(0.4, 1)
expect_number(share.throw - share.geometry):within(0, 1)
expect_number(share.gearing - share.throw):within(0, 1)

set:where { layout = { from = 1, to = 40 } }:draw {
  x = "layout", y = "way", title = "Forty random cut banks, three ways of aiming",
}
layout(7):play { stroke = layout(7):gear { speed = mps(4) }.stroke }:draw {
  name = "layout-7", title = "Random layout 7, geared",
}
