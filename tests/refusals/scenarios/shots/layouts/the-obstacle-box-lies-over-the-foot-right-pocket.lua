local hall = equipment 'nine-foot'
lay { equipment = hall, balls = { cue = { position = { metres(0), metres(0) } } },
  obstacles = { box = { middle = { metres(1.2), metres(-0.6) }, length = metres(0.3), width = metres(0.3) } } }
-- refused at 3:17 `box`
-- the obstacle `box` lies over the foot-right pocket
