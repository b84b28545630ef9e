sample { equipment = equipment 'nine-foot', contact = from_to(1, 3), speed = mps(2), points = -1 }
-- refused at 1:95 `-1`
-- `points` must be a whole number from 0 on, not -1
