local hall = equipment 'harbour-hall'
grid { equipment = hall, contact = 2, speed = mps(3), rail = 'head', pocket = 'head-left' }
-- refused at 2:70 `pocket`
-- the head-left pocket opens into the head rail itself, so no bank off that rail reaches it
