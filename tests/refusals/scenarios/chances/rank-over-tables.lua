local hall = equipment 'nine-foot'
local ratio = rule.linear { slope = 2.2, reading = 'groove' }
local banks = grid { equipment = hall, contact = { 2, 3 }, off_rail = inches(0), speed = mps(3), spin = 'stun' }
local both = grid { equipment = { hall, equipment 'seven-foot' }, contact = 2, off_rail = inches(0), speed = mps(3), spin = 'stun' }
player('club'):chances(both, ratio, rule.mirror()):rank()
-- refused at 5:52 `rank`
-- these banks are on several tables; a ranking needs one
-- hint: give the grid one equipment, or ask each table in turn
