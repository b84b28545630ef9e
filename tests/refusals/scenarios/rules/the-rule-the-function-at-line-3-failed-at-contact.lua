local hall = equipment 'harbour-hall'
local banks = grid { equipment = hall, contact = span(1, 3, 0.01), speed = mps(3) }
compare(banks, rule.func { start = function(contact) while true do end end, reading = "groove" })
-- refused at 3:36 `function(contact)`
-- the rule the function at line 3 failed at contact 1: the script ran longer than its 1s of Lua time
-- hint: look for a loop that does not end
-- ends with 4
