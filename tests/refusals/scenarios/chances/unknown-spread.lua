player { like = 'club', aims = milliradians(3) }
-- refused at 1:25 `aims`
-- player has no option `aims`
-- hint: did you mean `aim`?
