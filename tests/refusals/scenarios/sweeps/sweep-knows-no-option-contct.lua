local hall = equipment 'harbour-hall'
sweep { on = hall, contct = 2 }
-- refused at 2:20 `contct`
-- sweep knows no option `contct`
-- hint: did you mean `contact`?
