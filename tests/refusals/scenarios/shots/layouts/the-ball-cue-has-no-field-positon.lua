local hall = equipment 'nine-foot'
lay { equipment = hall, pocket = 'foot-right', balls = {
cue = { positon = {} } } }
-- refused at 3:9 `positon`
-- the ball `cue` has no field `positon`
-- hint: did you mean `position`?
