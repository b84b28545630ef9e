grid {
  contact = 2
  roll = 0,
}
-- refused at 3:3 `roll = 0,`
-- Expected ',' after table constructor element
-- hint: a comma is missing before this, perhaps at the end of the line above
