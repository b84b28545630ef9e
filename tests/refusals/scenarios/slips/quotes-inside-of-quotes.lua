scenario {
  shows = "Joe's "easy" bank",
}
-- refused at 2:11 `"Joe's "`
-- quotes stand inside of a text in quotes
-- hint: leave the inner ones out: "Joe's easy bank"
