local hall = equipment 'nine-foot'
lay { equipment = hall, pocket = 'foot-right', balls = {
cue = { position = { metres(0), 1 } } } }
-- refused at 3:33 `1`
-- `position`, item 2, needs a unit
-- hint: write inches(1)
