local hall = equipment 'nine-foot'
lay { equipment = hall, pocket = 'foot-right', balls = {
cue = {} } }
-- refused at 3:1 `cue`
-- the ball `cue` has no place
-- hint: for instance position = { metres(0.1), metres(-0.2) }; it takes one of position, on_rail, on_line, between, behind, in_front_of
