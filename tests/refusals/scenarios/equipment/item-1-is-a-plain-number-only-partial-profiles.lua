local hall = equipment 'harbour-hall'
hall:with { 3 }
-- refused at 2:6 `with`
-- item 1 is a plain number; only partial profiles such as cushion "…" go without a name
