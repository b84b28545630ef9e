local hall = equipment 'nine-foot'
lay { equipment = hall, pocket = 'foot-right', balls = {
cue = { position = { metres(0), metres(0) }, on_rail = 'left', number = 2 } } }
-- refused at 3:1 `cue`
-- the ball `cue` has both `position` and `on_rail`
-- hint: it lies in one place: take one of them out
