local hall = equipment 'nine-foot'
local ratio = rule.linear { slope = 2.2 }
bank_shot { equipment = hall, contact = 2, start = 4, rule = ratio }
-- refused at 3:55 `rule`
-- `start` and `rule` contradict each other
-- hint: give one of them; `start` stands at line 3, column 44
