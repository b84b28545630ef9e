local hall = equipment 'nine-foot'
hall:with { length = metres(2) }
-- refused at 2:13 `length`
-- with knows no option `length`
-- hint: `length` is now called `table_length`
