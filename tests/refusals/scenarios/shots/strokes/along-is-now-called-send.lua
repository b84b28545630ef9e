local hall = equipment 'nine-foot'
local bank = bank_shot { equipment = hall, contact = 2.5, rule = rule.linear { slope = 2.2 } }
bank:play { speed = mps(3), along = 'line' }
-- refused at 3:29 `along`
-- play has no option `along`
-- hint: `along` is called `send` here
