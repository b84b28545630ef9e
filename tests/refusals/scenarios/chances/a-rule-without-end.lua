local hall = equipment 'nine-foot'
local banks = grid { equipment = hall, contact = { 2, 3 }, off_rail = inches(4), speed = mps(3), spin = 'stun' }
local mine = rule.func { name = 'mine', reading = 'groove', start = function(contact) return 1 / 0 end }
player('club'):chances(banks, mine)
-- refused at 3:69 `function(contact)`
-- the rule mine failed at contact 0.087: the function gave inf, not a finite number
