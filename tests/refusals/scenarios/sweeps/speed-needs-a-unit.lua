local hall = equipment 'harbour-hall'
grid { equipment = hall, contact = 2, speed = 3 }
-- refused at 2:39 `speed`
-- `speed` needs a unit
-- hint: write mps(3)
