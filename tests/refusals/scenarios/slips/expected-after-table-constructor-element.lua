grid {
  contact = 2
  roll = 0,
}
-- refused at 2:13 `2`
-- a comma is missing after 2
-- hint: write 2,
