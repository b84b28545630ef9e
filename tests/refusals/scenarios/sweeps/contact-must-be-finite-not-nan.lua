local hall = equipment 'harbour-hall'
grid { equipment = hall, contact = 0/0, speed = mps(3) }
-- refused at 2:36 `0/0`
-- `contact` must be finite, not NaN
