local hall = equipment 'harbour-hall'
local banks = grid { equipment = hall, contact = { 1, 2 }, speed = mps(3) }
rule.lines { lines = { {2.8979503512244084e54, 3}, {1, 4} }, way = 'interpolate' }
-- refused at 3:32 `{1, 4}`
-- line 2 of the rule has contact 1, after 2; contacts must grow from line to line
