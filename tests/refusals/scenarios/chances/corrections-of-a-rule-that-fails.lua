local hall = equipment 'nine-foot'
local mine = rule.func { name = 'mine', reading = 'groove', start = function(contact) error('no idea') end }
corrections { on = hall, player = 'club', rule = mine, balls = 72 }
-- refused at 2:1 `local mine = rule.func { name = 'mine', reading = 'groove', start = function(contact) error('no idea') end }`
-- the rule mine failed at contact 1.089: no idea
