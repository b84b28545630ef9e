local hall = equipment 'nine-foot'
lay { equipment = hall, pocket = 'foot-right', balls = {
cue = { position = { metres(0), metres(0) }, launch = { speed = mps(1) } } } }
-- refused at 3:46 `launch`
-- `launch` has no `heading`
-- hint: for instance { speed = mps(2), heading = { to = { pocket = "foot-right" } } }
