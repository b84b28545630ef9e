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
set:where { word = 'c' }
-- refused at 20:20 `'c'`
-- `word` asks for "c", which is not played
-- hint: played: a, b; ask for one of them, or delete the line
