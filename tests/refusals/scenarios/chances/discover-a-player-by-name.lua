local hall = equipment 'nine-foot'
local ratio = rule.linear { slope = 2.2, reading = 'groove' }
local banks = grid { equipment = hall, contact = { 2, 3 }, off_rail = inches(0), speed = mps(3), spin = 'stun' }
discover { on = hall, player = 'club' }
-- refused at 4:23 `player`
-- `player` must be a player, not the text "club"
-- hint: write it like player "club"
