local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
compare(grid { equipment = hall, contact = span(1, 3, 0.001),
  speed = span(mps(1), mps(9), mps(0.001)) }, ratio)
-- refused at 3:1 `compare`
-- this sweep would have 16010001 banks; at most 2000000 are played at once
-- hint: take coarser steps, fewer rules, or several sweeps
