local hall = equipment 'harbour-hall'
grid { equipment = hall, contact = 2, speed = mps(3),
  spin = 'stun',
  roll = 0.5 }
-- refused at 4:3 `roll`
-- `spin` and `roll` contradict each other
-- hint: give one of them; `spin` stands at line 3, column 3
