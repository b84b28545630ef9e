local hall = equipment 'harbour-hall'
grid { equipment = hall, contact = { 2, 99 }, speed = mps(3) }
-- refused at 2:41 `99`
-- `contact`, item 2, is 99; it must be from -40 to 40
