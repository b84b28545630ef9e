local hall = equipment 'nine-foot'
local ratio = rule.linear { slope = 2.2, reading = 'groove' }
local banks = grid { equipment = hall, contact = { 2, 3 }, off_rail = inches(0), speed = mps(3), spin = 'stun' }
player('club'):chances(ratio)
-- refused at 4:24 `ratio`
-- the first argument of chances must be a grid, not a rule
-- hint: write chances(banks, …) with banks = grid { … }
