local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
local map = compare(grid { equipment = hall, contact = { 1, 2 }, speed = mps(4) }, ratio)
expect(map, map):share_at_least(0)
-- refused at 4:13 `map`
-- `expect` takes one thing, not 2
