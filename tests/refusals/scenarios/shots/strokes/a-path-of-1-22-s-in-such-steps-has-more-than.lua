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
local s = bank():play { speed = mps(3), send = 'line' }
print(s:path('object', seconds(1e-9)))
-- refused at 15:9 `path`
-- a path of 1.22 s in such steps has more than 20000 states
-- hint: take longer steps
