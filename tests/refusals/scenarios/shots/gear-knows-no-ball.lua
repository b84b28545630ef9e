local hall = equipment "nine-foot"
local shot = bank_shot { equipment = hall, contact = 2, start = 4.4, off_rail = inches(2), cue_distance = inches(14) }
print(shot:gear { ball = "object", speed = mps(4) })
-- refused at 3:19 `ball`
-- gear has no option `ball`
-- hint: leave it out: the ball that goes is the one meant for the pocket
