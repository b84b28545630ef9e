local hall = equipment 'harbour-hall'
grid { equipment = hall, contact = 2 }
-- refused at 2:1 `grid`
-- `speed` is missing
