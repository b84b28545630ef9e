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
bank():gear { speed = mps(3), tip_side = 0.1 }
-- refused at 14:31 `tip_side`
-- gear has no option `tip_side`
-- hint: it has: speed, tip_height, elevation, allow_miscue, send
