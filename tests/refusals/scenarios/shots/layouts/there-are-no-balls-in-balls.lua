local hall = equipment 'nine-foot'
lay { equipment = hall, pocket = 'foot', balls = {} }
-- refused at 2:1 `lay`
-- there are no balls in `balls`
-- hint: each ball has a name and a place: balls = { cue = { position = … } }
