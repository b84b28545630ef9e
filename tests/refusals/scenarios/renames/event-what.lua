local hall = equipment 'nine-foot'
local made = bank_shot {
  equipment = hall,
  contact = 2.5,
  rule = rule.linear { slope = 2.2 },
  off_rail = inches(6),
  cue_distance = inches(14),
}:play { speed = mps(3), send = 'line' }
print(made:events()[1].what)
-- refused at 9:24 `what`
-- an event has no `what`
-- hint: `what` is called `kind` here
