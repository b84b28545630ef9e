local hall = equipment 'nine-foot'
lay { equipment = hall, balls = { cue = { position = { metres(0), metres(0) },
  launch = { speed = mps(1), heading = { angle = degrees(0) }, side = 0.1 } } } }
-- refused at 3:64 `side`
-- `launch` has no field `side`
-- hint: `side` is called `spin_side` here
