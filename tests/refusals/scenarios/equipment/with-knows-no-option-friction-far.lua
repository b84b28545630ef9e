local hall = equipment 'nine-foot'
hall:with { friction_far = 0.01 }
-- refused at 2:13 `friction_far`
-- with has no option `friction_far`
-- hint: `friction_far` is called `ball_friction_far` here
