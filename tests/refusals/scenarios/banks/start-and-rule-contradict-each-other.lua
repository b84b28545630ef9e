local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
bank { equipment = hall, contact = 2, start = 4, rule = ratio, speed = mps(3) }
-- refused at 3:50 `rule`
-- `start` and `rule` contradict each other
-- hint: give one of them; `start` stands at line 3, column 39
