local hall = equipment 'nine-foot'
local ratio = rule.linear { slope = 2.2, reading = 'groove' }
local banks = grid { equipment = hall, contact = { 2, 3 }, off_rail = inches(0), speed = mps(3), spin = 'stun' }
player('club'):chances(banks)
-- refused at 4:16 `chances`
-- chances needs a rule to aim by
-- hint: write chances(banks, rule.linear { … }), or give the sweep a `start`
