local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
print(bank { equipment = hall, contact = 2, speed = mps(3), rule = ratio }.mis)
-- refused at 3:76 `mis`
-- an outcome has no `mis`
-- hint: did you mean `miss`?
