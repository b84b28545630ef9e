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
shots { over = { a = span(1, 1000, 1), b = span(1, 1000, 1) }, shot = function(p) return bank(), { speed = mps(3), send = 'line' } end }
-- refused at 14:9 `over`
-- this sweep would have 1000000 shots; at most 100000 are played
-- hint: take coarser steps, several sweeps, or plan { … } and `railproof sweep`
