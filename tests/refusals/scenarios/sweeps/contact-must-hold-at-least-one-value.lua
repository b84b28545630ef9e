local hall = equipment 'harbour-hall'
grid { equipment = hall, contact = {}, speed = mps(3) }
-- refused at 2:36 `{}`
-- `contact` must hold at least one value
