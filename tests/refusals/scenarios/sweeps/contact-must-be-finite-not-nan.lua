local hall = equipment 'harbour-hall'
sweep { on = hall, contact = 0/0, speed = mps(3) }
-- refused at 2:30 `0/0`
-- `contact` must be finite, not NaN
