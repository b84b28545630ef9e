local hall = equipment 'harbour-hall'
aim_margin { equipment = hall, contact = 2, start = 9, speed = mps(3) }
-- refused at 2:1 `aim_margin`
-- the bank does not hold as aimed: long
