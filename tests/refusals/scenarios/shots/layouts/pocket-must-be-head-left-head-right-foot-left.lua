local hall = equipment 'nine-foot'
lay { equipment = hall, pocket = 'foott-right', balls = { cue = { position = { metres(0), metres(0) } } } }
-- refused at 2:34 `'foott-right'`
-- `pocket` must be "head-left", "head-right", "foot-left", "foot-right", "side-left" or "side-right", not the text "foott-right"
-- hint: did you mean "foot-right"?
