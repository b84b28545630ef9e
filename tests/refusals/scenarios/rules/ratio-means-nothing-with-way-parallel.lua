local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
local banks = grid { equipment = hall, contact = { 1, 2 }, speed = mps(3) }
rule.lines { lines = { {2, 3} }, way = 'parallel', ratio = 2 }
-- refused at 4:52 `ratio`
-- `ratio` means nothing with way = "parallel"
