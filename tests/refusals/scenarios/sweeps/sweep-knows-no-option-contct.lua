local hall = equipment 'harbour-hall'
sweep { equipment = hall, contct = 2 }
-- refused at 2:27 `contct`
-- sweep knows no option `contct`
-- hint: did you mean `contact`?
