local hall = equipment 'nine-foot'
local mine = rule.func { name = 'mine', reading = 'groove', start = function(contact) error('no idea') end }
local open = lay { equipment = hall, balls = { cue = { position = { centimetres(-20), centimetres(-40) } }, object = { position = { centimetres(30), centimetres(20) } } } }
open:bank_or_cut { player = 'club', speed = mps(3), rule = mine }
-- refused at 2:1 `local mine = rule.func { name = 'mine', reading = 'groove', start = function(contact) error('no idea') end }`
-- the rule mine failed at contact 0.087: no idea
