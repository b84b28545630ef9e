local hall = equipment 'nine-foot'
lay { equipment = hall, pocket = 'foot-right', balls = {
a = { between = { 'b', 'cue' } },
b = { between = { 'a', 'cue' } },
cue = { position = { metres(0), metres(0) } } } }
-- refused at 3:7 `between`
-- where `a` lies depends on itself: a → b → a
-- hint: give one of them a place of its own
