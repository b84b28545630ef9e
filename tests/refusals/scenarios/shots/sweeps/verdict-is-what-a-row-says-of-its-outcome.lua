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
shots { over = { verdict = { 1, 2 } }, shot = function(p) return bank(), { speed = mps(3), send = 'line' } end }
-- refused at 14:18 `verdict`
-- `verdict` is already a column of the results
-- hint: give what varies another name
