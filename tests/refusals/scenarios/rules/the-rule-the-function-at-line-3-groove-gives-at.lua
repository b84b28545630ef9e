local hall = equipment 'harbour-hall'
local banks = grid { equipment = hall, contact = span(1, 3, 0.01), speed = mps(3) }
compare(banks, rule.func { start = function(contact) return 1e300 end, reading = "groove" })
-- refused at 3:1 `compare`
-- the rule `the function at line 3, groove` gives no start number to play from at contact 1: start is 1e300; it must be from -200 to 200
