local hall = equipment 'harbour-hall'
local banks = grid { equipment = hall, contact = { 1, 2 }, speed = mps(3) }
rule.mirror {}:start(2)
-- refused at 3:16 `start`
-- this rule depends on the table, and start names none
-- hint: write rule:start(…, hall)
