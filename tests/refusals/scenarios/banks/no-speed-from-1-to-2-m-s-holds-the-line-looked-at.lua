local hall = equipment 'harbour-hall'
least_speed { equipment = hall, contact = 2, start = 9, from = mps(1), to = mps(2) }
-- refused at 2:1 `least_speed`
-- no speed from 1 to 2 m/s makes the line hold (116 tried)
-- hint: widen `from` and `to`, or choose another line
