player { aim = 3 }
-- refused at 1:10 `aim`
-- `aim` needs a unit
-- hint: write degrees(3)
