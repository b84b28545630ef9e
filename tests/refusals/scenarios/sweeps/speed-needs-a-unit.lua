local hall = equipment 'harbour-hall'
sweep { equipment = hall, contact = 2, speed = 3 }
-- refused at 2:40 `speed`
-- `speed` needs a unit
-- hint: write mps(3)
