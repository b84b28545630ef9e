local hall = equipment "nine-foot"
local shot = bank_shot { equipment = hall, contact = 2, start = 4.4, off_rail = inches(2), cue_distance = inches(14) }
shot:play { speed = mps(4), gear = { ball = "object", heading = { to = { pocket = "foot-right" } } } }
-- refused at 3:38 `ball`
-- `gear` has no field `ball`
-- hint: a way is one of `to`, `line` and `angle`; in a scenario the ball that goes is the one meant for the pocket
