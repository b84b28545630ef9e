local hall = equipment 'harbour-hall'
hall:with { friction_law = 'expo' }
-- refused at 2:28 `'expo'`
-- `friction_law` must be "log-linear" or "exponential", not the text "expo"
