local hall = equipment 'harbour-hall'
local starts = exact_starts(grid { equipment = hall, contact = { 1, 2 }, speed = mps(3) })
starts:at { contact = 1.5 }
-- refused at 3:23 `1.5`
-- `contact` is nowhere 1.5 here
-- hint: it is: 1, 2
