local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
least_speed { equipment = hall, contact = 2, rule = ratio, speed = mps(3) }
-- refused at 3:60 `speed`
-- least_speed finds the speed; leave out `speed`
-- hint: `from` and `to` bound the search
