local hall = equipment 'harbour-hall'
local banks = grid { equipment = hall, contact = { 1, 2 }, speed = mps(3) }
rule.lines { lines = { {2, 3} }, way = 'interpolate' }
-- refused at 3:14 `lines`
-- the rule has 1 known line(s); this way of going between lines needs at least 2
