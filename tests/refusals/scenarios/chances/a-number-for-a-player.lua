player(3)
-- refused at 1:8 `3`
-- player takes the name of a player or a table, not a plain number
-- hint: write it like player "club"
