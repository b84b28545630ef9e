local text = string.rep('x', 1e10)
-- refused at 1:21 `rep`
-- string.rep repeats at most 2147483647 times
