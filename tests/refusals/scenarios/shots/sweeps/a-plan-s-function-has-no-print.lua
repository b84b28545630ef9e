plan {
  over = { speed = mps(3) },
  shot = function(point)
    print(point.speed)
    return lay { balls = {} }, { speed = point.speed }
  end,
}
-- refused at 4:5 `print`
-- `print` comes from outside the function
-- hint: a plan's shot function can use its own arguments and locals, math, string, table, units, lay, bank_shot, route and rule; write the value inside it, or hand over equipment by `with`
