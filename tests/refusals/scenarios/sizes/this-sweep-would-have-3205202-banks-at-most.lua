local hall = equipment 'harbour-hall'
local ratio = rule.linear { slope = 2.2, name = 'ratio' }
local b = grid { equipment = hall, contact = span(1, 3, 0.002), speed = span(mps(1), mps(9), mps(0.005)) }
compare(b, ratio, rule.mirror {})
-- refused at 4:1 `compare`
-- this sweep would have 3205202 banks; at most 2000000 are played at once
-- hint: take coarser steps, fewer rules, or several sweeps
