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
bank():play { speed = mps(3), send = 'line', tip_side = 0.7 }
-- refused at 14:46 `tip_side`
-- a miscue: the tip stands 0.700 of the ball's radius from the centre, and beyond 0.500 it slips off
-- hint: put the tip nearer the middle, or write allow_miscue = true to play on as if it did not slip
