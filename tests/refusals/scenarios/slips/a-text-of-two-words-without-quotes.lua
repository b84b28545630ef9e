local banks = grid {
  contact = 2,
  speed = very hard,
}
-- refused at 3:11 `very`
-- very hard needs its quotes
-- hint: text goes in quotes: "very hard"
