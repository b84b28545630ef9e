local hall = equipment 'harbour-hall'
sweep { on = hall, contact = {}, speed = mps(3) }
-- refused at 2:30 `{}`
-- `contact` must hold at least one value
