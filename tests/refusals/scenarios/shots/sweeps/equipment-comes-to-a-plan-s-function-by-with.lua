local hall = equipment 'nine-foot'
plan {
  over = { speed = mps(3) },
  shot = function(point)
    return lay { equipment = hall, balls = {} }, { speed = point.speed }
  end,
}
-- refused at 5:30 `hall`
-- `hall` comes from outside the function
-- hint: a plan's shot function can use its own arguments and locals, math, string, table, units, lay, bank_shot, route and rule; write the value inside it, or hand over equipment by `with`
