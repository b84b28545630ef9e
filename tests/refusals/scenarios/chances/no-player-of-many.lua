local hall = equipment 'nine-foot'
local ratio = rule.linear { slope = 2.2, reading = 'groove' }
local banks = grid { equipment = hall, contact = { 2, 3 }, off_rail = inches(0), speed = mps(3), spin = 'stun' }
local wide = unmeasured_table(hall)
wide:chances(grid { equipment = wide, contact = 2, off_rail = inches(0), speed = mps(3), spin = 'stun' }, ratio)
-- refused at 5:14 `grid { equipment = wide, contact = 2, off_rail = inches(0), speed = mps(3), spin = 'stun' }`
-- what chances takes first must be a player, not a grid
-- hint: write it like player "club"
