local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
local map = compare(grid { equipment = hall, contact = { 1, 2 }, speed = mps(4) }, ratio)
expect(map):share_at_least(0)
expect(map)
-- refused at 5:1 `expect`
-- `expect` is given no claim, so nothing is expected
-- hint: write one after it: expect(x):holds()
