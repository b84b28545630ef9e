sample { equipment = equipment 'nine-foot', contact = from_to(1, 3), speed = mps(2), points = -1 }
