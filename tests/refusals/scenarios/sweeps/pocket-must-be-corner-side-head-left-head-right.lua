local hall = equipment 'harbour-hall'
grid { equipment = hall, contact = 2, speed = mps(3), pocket = 'cornr' }
-- refused at 2:64 `'cornr'`
-- `pocket` must be "corner", "side", "head-left", "head-right", "foot-left", "foot-right", "side-left" or "side-right", not the text "cornr"
-- hint: did you mean "corner"?
