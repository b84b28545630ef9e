local hall = equipment 'harbour-hall'
local banks = grid { equipment = hall, contact = { 1, 2 }, speed = mps(3) }
rule.lines { lines = { {2, 3} }, way = 'proportional' }
-- refused at 3:6 `lines`
-- lines needs `ratio`: a plain number
