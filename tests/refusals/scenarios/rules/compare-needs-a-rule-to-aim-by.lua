local hall = equipment 'harbour-hall'
local banks = grid { equipment = hall, contact = { 1, 2 }, speed = mps(3) }
compare(banks)
-- refused at 3:1 `compare`
-- compare needs a rule to aim by
-- hint: write compare(banks, rule.linear { … }), or give the sweep a `start`
