local hall = equipment 'nine-foot'
local ratio = rule.linear { slope = 2.2 }
local function bank(t)
  t = t or {}
  return bank_shot {
    equipment = hall,
    contact = t.contact or 2.5,
    rule = ratio,
    off_rail = t.off_rail or inches(6),
    cue_distance = t.distance or inches(14),
    cut = t.cut,
  }
end
local set = shots {
  over = { cut = { degrees(0), degrees(10) }, speed = { mps(3), mps(4) }, word = { 'a', 'b' } },
  shot = function(p)
    return bank { cut = p.cut }, { speed = p.speed, send = 'line' }
  end,
}
expect(set):agrees_with(set:where { word = 'a' })
-- refused at 20:25 `set:where { word = 'a' }`
-- the two vary in different things, so no shot has a partner
-- hint: select with `where` until both vary in the same axes over the same values
