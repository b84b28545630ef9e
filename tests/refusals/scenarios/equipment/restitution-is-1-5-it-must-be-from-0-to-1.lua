local hall = equipment 'harbour-hall'
hall:with { restitution = 1.5 }
-- refused at 2:27 `1.5`
-- `restitution` is 1.5; it must be from 0 to 1
