local hall = equipment 'harbour-hall'
local s = grid { equipment = hall, contact = 2, speed = mps(3) }
s.count()
-- refused at 3:1 `s.count()`
-- `count` is called with a colon before it
-- hint: write a colon, as in name:count, not name.count
