local hall = equipment 'nine-foot'
lay { equipment = hall, pocket = 'foot-right', balls = {
cue = { position = { metres(0), metres(0) }, launch = { speed = mps(1) } } } }
-- refused at 3:46 `launch`
-- a launch needs a `heading`
-- hint: for instance heading = { to = { pocket = "foot-right" } }
