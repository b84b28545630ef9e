local hall = equipment 'nine-foot'
lay { equipment = hall, pocket = 'foot-right', balls = {
cue = { position = { metres(3), metres(0) } } } }
-- refused at 3:9 `position`
-- the ball `cue` is off the table: x is 3.000000 m
-- hint: on this table the centre has x from -1.242486 m to 1.242486 m; the origin is the table's centre
