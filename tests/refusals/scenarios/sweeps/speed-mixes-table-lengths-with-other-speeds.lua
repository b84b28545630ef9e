local hall = equipment 'harbour-hall'
grid { equipment = hall, contact = 2,
  speed = { mps(3), lengths(2) } }
-- refused at 3:21 `lengths(2)`
-- `speed` mixes table lengths with other speeds
-- hint: play them in two grids: one with speed = lengths(2), and one with speed = mps(3)
