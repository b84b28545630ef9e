span(1 2, 3)
-- refused at 1:1 `span(1 2, 3)`
-- Expected ')' (to close '(' at column 5), got '2'
-- hint: a comma or a closing ) is missing, perhaps on the line above
