local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
local banks = grid { equipment = hall, contact = { 1, 2 }, speed = mps(3) }
compare(grid { equipment = hall, contact = 2, start = 4, speed = mps(3) }, ratio)
-- refused at 4:76 `ratio`
-- the sweep gives `start` itself, so no rule can aim it
-- hint: leave out `start`, or the rules
