player { aim = milliradians(900) }
-- refused at 1:16 `milliradians(900)`
-- `aim` is 900 mrad; it must be from 0 mrad to 200 mrad
