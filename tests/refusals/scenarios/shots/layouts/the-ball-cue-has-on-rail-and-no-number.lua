local hall = equipment 'nine-foot'
lay { equipment = hall, pocket = 'foot-right', balls = {
cue = { on_rail = 'left' } } }
-- refused at 3:1 `cue`
-- the ball `cue` has `on_rail` and no `number`
-- hint: for instance number = 2
