rule.between { lines = { {2, 3} } }
-- refused at 1:6 `between`
-- `rule` has no `between`
-- hint: `between` is called `ways` here
