local hall = equipment 'nine-foot'
local made = bank_shot {
  equipment = hall,
  contact = 2.5,
  rule = rule.linear { slope = 2.2 },
  off_rail = inches(6),
  cue_distance = inches(14),
}:play { speed = mps(3), send = 'line' }
print(made:ends().object.how)
-- refused at 9:26 `how`
-- an end has no `how`
-- hint: `how` is called `ending` here
