local hall = equipment 'harbour-hall'
grid { equipment = hall, contact = span(1, 3, 1e-12), speed = mps(3) }
-- refused at 2:47 `1e-12`
-- a span from 1 to 3 in steps of 0.000000000001 would have 2000000000001 values; at most 100000 are made
