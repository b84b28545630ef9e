local hall = equipment 'harbour-hall'
bank { equipment = hall, contact = 2, speed = mps(3) }
-- refused at 2:1 `bank`
-- a bank needs a `start` number or a `rule`
