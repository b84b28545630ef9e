local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
local map = compare(grid { equipment = hall, contact = { 1, 2 }, speed = mps(4) }, ratio)
expect(map):share_within(0, 1, 2)
-- refused at 4:32 `2`
-- `share_within` takes at most 2 things, not 3
