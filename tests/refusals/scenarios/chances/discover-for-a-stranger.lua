discover { on = equipment "nine-foot", player = "clubb", balls = 64 }
-- refused at 1:40 `player`
-- there is no shipped player and no file named `clubb`
-- hint: did you mean `club`?
