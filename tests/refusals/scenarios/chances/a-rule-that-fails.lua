local hall = equipment 'nine-foot'
local banks = grid { equipment = hall, contact = { 2, 3 }, off_rail = inches(0), speed = mps(3), spin = 'stun' }
local mine = rule.func { name = 'mine', reading = 'groove', start = function(contact) error('no idea') end }
player('club'):chances(banks, mine)
-- refused at 3:1 `local mine = rule.func { name = 'mine', reading = 'groove', start = function(contact) error('no idea') end }`
-- the rule mine failed at contact 2: no idea
