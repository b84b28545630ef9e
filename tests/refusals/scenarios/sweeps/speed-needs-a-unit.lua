local hall = equipment 'harbour-hall'
sweep { on = hall, contact = 2, speed = 3 }
-- refused at 2:33 `speed`
-- `speed` needs a unit
-- hint: write mps(3)
