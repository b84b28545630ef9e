local hall = equipment 'harbour-hall'
hall:with {}
-- refused at 2:6 `with`
-- `with` changes nothing here
