local hall = equipment 'harbour-hall'
sweep { on = { hall, hall }, contact = 2, speed = mps(3) }
-- refused at 2:22 `hall`
-- `on` has Harbour Hall (invented) twice
