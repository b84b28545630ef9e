local hall = equipment 'harbour-hall'
grid { equipment = hall, contct = 2 }
-- refused at 2:26 `contct`
-- grid has no option `contct`
-- hint: did you mean `contact`?
