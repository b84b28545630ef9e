local hall = equipment 'harbour-hall'
grid { equipment = hall, contact = 2, speed = mps(3), nose_height = millimetres(55) }
-- refused at 2:55 `nose_height`
-- nose_height in ball diameters is 0.96238; it must be from 0.5 to 0.7
