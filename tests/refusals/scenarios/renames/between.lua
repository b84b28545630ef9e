local range = between(1, 4)
-- refused at 1:15 `between`
-- nothing is called `between`; `from_to` stands in
-- hint: write `from_to`
