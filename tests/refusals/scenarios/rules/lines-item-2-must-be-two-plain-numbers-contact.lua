local hall = equipment 'harbour-hall'
local banks = grid { equipment = hall, contact = { 1, 2 }, speed = mps(3) }
rule.lines { lines = { {2, 3}, 4 }, way = 'parallel' }
-- refused at 3:32 `4`
-- `lines`, item 2, must be two plain numbers, contact and start, like {1.5, 3.3}, not a plain number
