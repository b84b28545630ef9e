local hall = equipment 'harbour-hall'
sweep { equipment = hall, contact = 2 }
-- refused at 2:1 `sweep`
-- `speed` is missing
