local hall = equipment 'harbour-hall'
sweep { equipment = hall, contact = 0/0, speed = mps(3) }
-- refused at 2:37 `0/0`
-- `contact` must be finite, not NaN
