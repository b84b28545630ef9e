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
shots { over = { tip = { 0.8, 0.9 } },
  shot = function(p) return bank(), { speed = mps(3), tip_side = p.tip, send = 'line' } end }
-- refused at 15:55 `tip_side`
-- at tip 0.8: a miscue: the tip stands 0.800 of the ball's radius from the centre, and beyond 0.500 it slips off
-- hint: put the tip nearer the middle, or write allow_miscue = true to play on as if it did not slip
