local hall = equipment 'nine-foot'
lay { equipment = hall, pocket = 'foot-right', balls = {
cue = { behind = 'objct', heading = { angle = degrees(1) } },
object = { position = { metres(0), metres(0) } } } }
-- refused at 3:9 `behind`
-- there is no ball `objct`
-- hint: did you mean `object`?
