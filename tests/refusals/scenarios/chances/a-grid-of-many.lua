local hall = equipment 'nine-foot'
local ratio = rule.linear { slope = 2.2, reading = 'groove' }
local banks = grid { equipment = hall, contact = { 2, 3 }, off_rail = inches(0), speed = mps(3), spin = 'stun' }
local wide = unmeasured_table(hall)
player('club'):chances(grid { equipment = wide, contact = 2, off_rail = inches(0), speed = mps(3), spin = 'stun' }, ratio)
-- refused at 5:24 `grid { equipment = wide, contact = 2, off_rail = inches(0), speed = mps(3), spin = 'stun' }`
-- the first argument of chances is a grid of all the tables that one could be
-- hint: ask them all: mine:shares(grid, rule), mine:rank(grid, { rules }), mine:exact_starts(grid), mine:frontier { … }; or give the grid equipment = mine.middle
