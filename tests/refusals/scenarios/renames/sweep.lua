local banks = sweep { contact = 2 }
-- refused at 1:15 `sweep`
-- nothing is called `sweep`; `grid` stands in
-- hint: write `grid`
