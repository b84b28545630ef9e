local hall = equipment 'nine-foot'
lay { equipment = hall, pocket = 'foot-right', balls = {
cue = { on_rail = 'lft', number = 2 } } }
-- refused at 3:19 `'lft'`
-- `on_rail` must be "head", "foot", "left" or "right", not the text "lft"
-- hint: did you mean "left"?
