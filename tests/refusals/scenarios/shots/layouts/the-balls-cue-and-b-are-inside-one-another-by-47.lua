local hall = equipment 'nine-foot'
lay { equipment = hall, pocket = 'foot-right', balls = {
cue = { position = { metres(0), metres(0) } },
b = { position = { metres(0.01), metres(0) } } } }
-- refused at 4:7 `position`
-- the balls `cue` and `b` are inside one another by 47.150 mm
