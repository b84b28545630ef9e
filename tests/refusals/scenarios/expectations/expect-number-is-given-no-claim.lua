local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
local map = compare(grid { equipment = hall, contact = { 1, 2 }, speed = mps(4) }, ratio)
local later = expect_number(1)
expect_number(2):near(2, 0.1)
-- refused at 4:15 `expect_number`
-- `expect_number` is given no claim, so nothing is expected
-- hint: write one after it: expect_number(x):within(1, 2)
