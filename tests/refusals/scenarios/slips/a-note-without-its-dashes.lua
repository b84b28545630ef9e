Saturday lesson
local hall = equipment "harbour-hall"
-- refused at 1:1 `Saturday`
-- this is not a line of Lua
-- hint: a note begins with two dashes: --
