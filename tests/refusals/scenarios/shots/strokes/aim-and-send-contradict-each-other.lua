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
bank():play { speed = mps(3), send = 'line', aim = degrees(3) }
-- refused at 14:31 `send`
-- `aim` and `send` contradict each other
-- hint: the cue points one way: give one of them
