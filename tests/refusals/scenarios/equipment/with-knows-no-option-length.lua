local hall = equipment 'nine-foot'
hall:with { length = metres(2) }
-- refused at 2:13 `length`
-- with has no option `length`
-- hint: `length` is called `table_length` here
