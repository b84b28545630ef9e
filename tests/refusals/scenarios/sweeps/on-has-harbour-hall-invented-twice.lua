local hall = equipment 'harbour-hall'
sweep { equipment = { hall, hall }, contact = 2, speed = mps(3) }
-- refused at 2:29 `hall`
-- `equipment` has Harbour Hall (invented) twice
