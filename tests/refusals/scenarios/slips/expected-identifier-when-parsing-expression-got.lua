grid {
local a = 1
-- refused at 1:6 `{`
-- this { is not closed
-- hint: write } on a line of its own below its last line
