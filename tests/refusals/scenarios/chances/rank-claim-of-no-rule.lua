local hall = equipment 'nine-foot'
local ratio = rule.linear { slope = 2.2, reading = 'groove' }
local banks = grid { equipment = hall, contact = { 2, 3 }, off_rail = inches(0), speed = mps(3), spin = 'stun' }
expect(player('club'):chances(banks, ratio, rule.mirror()):rank()):ranks_first('2.3')
-- refused at 4:80 `'2.3'`
-- no rule is called "2.3" here
-- hint: the rules: 2.2 × contact, groove; mirror geometry
