local hall = equipment 'nine-foot'
route { equipment = hall, pocket = 'head-right', speed = mps(3),
from = { position = { metres(0), metres(0) } }, rails = { 'left', 'left' } }
-- refused at 3:67 `'left'`
-- a ball can't come off the left rail twice running
