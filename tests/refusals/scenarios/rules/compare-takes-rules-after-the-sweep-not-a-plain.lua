local hall = equipment 'harbour-hall'
local banks = grid { equipment = hall, contact = { 1, 2 }, speed = mps(3) }
compare(banks, 2.2)
-- refused at 3:16 `2.2`
-- compare takes rules after the sweep, not a plain number
-- hint: a number alone is no rule yet: write rule.linear { slope = 2.2 }
