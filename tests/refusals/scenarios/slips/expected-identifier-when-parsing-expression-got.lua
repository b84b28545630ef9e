grid {
local a = 1
-- refused at 2:1 `local`
-- Expected identifier when parsing expression, got 'local'
-- hint: something above is not finished: look for a { or ( left open, or a missing value
