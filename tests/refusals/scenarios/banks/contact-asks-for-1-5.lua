local hall = equipment 'harbour-hall'
local starts = exact_starts(grid { equipment = hall, contact = { 1, 2 }, speed = mps(3) })
starts:at { contact = 1.5 }
-- refused at 3:23 `1.5`
-- `contact` asks for 1.5, which is not played
-- hint: played: 1, 2; ask for one of them, or delete the line
