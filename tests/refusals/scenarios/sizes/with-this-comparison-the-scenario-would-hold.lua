local hall = equipment 'harbour-hall'
local banks = grid { equipment = hall, contact = 2, speed = mps(3), rail_model = "planar",
roll = span(0, 1, 0.001), running_side = span(0, 1, 0.001) }
for turn = 1, 5 do compare(banks, rule.mirror()) end
-- refused at 4:20 `compare`
-- with this comparison the scenario would hold 4008004 banks; at most 4000000 are held together
-- hint: take coarser steps, or several scenarios
