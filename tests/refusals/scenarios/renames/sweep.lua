local banks = sweep { contact = 2 }
-- refused at 1:15 `sweep`
-- nothing is called `sweep` here
-- hint: `sweep` is now called `grid`
