sweep { contact = 2, speed = mps(3) }
-- refused at 1:1 `sweep`
-- `equipment` is missing
