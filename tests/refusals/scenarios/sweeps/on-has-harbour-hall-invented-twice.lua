local hall = equipment 'harbour-hall'
grid { equipment = { hall, hall }, contact = 2, speed = mps(3) }
-- refused at 2:28 `hall`
-- `equipment` has Harbour Hall (invented) twice
