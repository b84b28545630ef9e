local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
local map = compare(grid { equipment = hall, contact = { 1, 2 }, speed = mps(4) }, ratio)
expect(map):misses_within(millimetres(20), 0.9)
-- refused at 4:44 `0.9`
-- `misses_within` takes one thing, not 2
