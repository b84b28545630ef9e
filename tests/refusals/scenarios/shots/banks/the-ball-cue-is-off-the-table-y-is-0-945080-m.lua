local hall = equipment 'nine-foot'
bank_shot { equipment = hall, contact = 2, start = 4.4, off_rail = metres(1.25) }
-- refused at 2:1 `bank_shot`
-- the ball `cue` is off the table: y is -0.945080 m
-- hint: on this table the centre has y from -0.607486 m to 0.607486 m; the origin is the table's centre
