local hall = equipment 'harbour-hall'
sweep { equipment = hall, contact = {}, speed = mps(3) }
-- refused at 2:37 `{}`
-- `contact` must hold at least one value
