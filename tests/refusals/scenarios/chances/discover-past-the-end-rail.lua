discover { on = equipment "nine-foot", rail = "end", from = 1, to = 5 }
-- refused at 1:64 `to`
-- the balls must lie on the rail, which ends at 3.91
-- hint: give a smaller `to`
