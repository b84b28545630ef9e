local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
bank { equipment = hall, contact = 2, speed = { mps(3), mps(4) }, rule = ratio }
-- refused at 3:39 `speed`
-- one bank needs one `speed`, not 2
-- hint: lists and spans go in grid { … }
