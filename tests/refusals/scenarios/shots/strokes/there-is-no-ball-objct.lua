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
print(s:at('objct', seconds(1)))
-- refused at 15:12 `'objct'`
-- there is no ball `objct`
-- hint: did you mean `object`?
