equipment nine
-- refused at 1:1 `equipment nine`
-- Incomplete statement: expected assignment or a function call
-- hint: text goes in quotes: equipment "nine"
