equipment(9)
-- refused at 1:11 `9`
-- equipment takes the name of a profile or a file, not a plain number
-- hint: write it like equipment "nine-foot"
