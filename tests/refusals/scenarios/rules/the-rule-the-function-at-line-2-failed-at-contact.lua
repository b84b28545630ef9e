local hall = equipment 'harbour-hall'
local bad = rule.func { start = function(contact) return 'x' end }
compare(grid { equipment = hall, contact = 1, speed = mps(3) }, bad)
-- refused at 2:33 `function(contact)`
-- the rule the function at line 2 failed at contact 1: the function gave the text "x", not a finite number (contact 1)
