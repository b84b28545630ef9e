local hall = equipment 'harbour-hall'
grid { equipment = hall, contact = 2, speed = mps(3), lag = 2 }
-- refused at 2:55 `lag`
-- `speed` and `lag` contradict each other
-- hint: give one of them; `speed` stands at line 2, column 39
