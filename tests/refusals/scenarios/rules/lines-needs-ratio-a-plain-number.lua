local hall = equipment 'harbour-hall'
local banks = sweep { equipment = hall, contact = { 1, 2 }, speed = mps(3) }
rule.lines { lines = { {2, 3} }, between = 'proportional' }
-- refused at 3:6 `lines`
-- lines needs `ratio`: a plain number
