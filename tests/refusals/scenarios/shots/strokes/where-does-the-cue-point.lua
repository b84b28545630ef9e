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
bank():play { speed = mps(3) }
-- refused at 14:8 `play`
-- where does the cue point?
-- hint: give one of aim, aim_at, send, gear, overcut, ghost
