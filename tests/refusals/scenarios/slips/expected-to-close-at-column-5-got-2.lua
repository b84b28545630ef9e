span(1 2, 3)
-- refused at 1:6 `1`
-- a comma is missing after 1
-- hint: write 1,
