local hall = equipment 'harbour-hall'
hall:with { sliding_friction = inches(1) }
-- refused at 2:13 `sliding_friction`
-- `sliding_friction` must be a plain number, not a length
