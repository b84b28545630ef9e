local hall = equipment 'harbour-hall'
grid { equipment = hall, contact = 2 }
-- refused at 2:1 `grid`
-- `speed` is missing; soft, medium and firm stand in (1.5, 3 and 4.5 m/s)
-- hint: put a line back in the braces, such as: speed = span(mps(2), mps(6), mps(0.25)),
