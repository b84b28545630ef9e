local hall = equipment 'harbour-hall'
grid { equipment = hall, contact = 2, speed = mps(3), off_rail = metres(2) }
-- refused at 2:55 `off_rail`
-- 78.7 in (2.000 m) off the rail is not on the table: groove to groove is 47.8 in (1.215 m)
