local hall = equipment 'harbour-hall'
grid { equipment = hall, contact = 2,
  off_rail = { inches(12), feet(1) }, speed = mps(3) }
-- refused at 3:28 `feet(1)`
-- `off_rail` has 1 ft twice
