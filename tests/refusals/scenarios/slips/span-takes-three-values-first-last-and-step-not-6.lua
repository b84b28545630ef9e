print(span(1,25, 3,5, 0,25))
-- refused at 1:20 `5`
-- span takes three values, first, last and step, not 6
-- hint: decimals take a point: 0.25, not 0,25
