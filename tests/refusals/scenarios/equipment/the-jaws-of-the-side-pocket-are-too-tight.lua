local hall = equipment 'nine-foot'
hall:with { side_angle = degrees(175) }
-- refused at 2:13 `side_angle`
-- the jaws of the side-left pocket are too tight: at the drop line a ball is 0.610065629901539 m too wide for them
