local hall = equipment 'harbour-hall'
local starts = exact_starts(grid { equipment = hall, contact = { 1, 2 }, speed = { mps(3), mps(4) } })
starts:at { contact = 1 }
-- refused at 3:8 `at`
-- this leaves 2 points; `at` needs one
-- hint: say also: speed
