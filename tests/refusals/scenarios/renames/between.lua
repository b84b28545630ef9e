local range = between(1, 4)
-- refused at 1:15 `between`
-- nothing is called `between` here
-- hint: `between` is now called `from_to`
