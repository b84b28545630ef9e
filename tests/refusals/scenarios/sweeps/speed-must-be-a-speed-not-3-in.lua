local hall = equipment 'harbour-hall'
grid { equipment = hall, contact = 2, speed = inches(3) }
-- refused at 2:39 `speed`
-- `speed` must be a speed, not 3 in
-- hint: its unit is one of: m/s, km/h, mph, ft/s, in/s, lengths
