player 'clubb'
-- refused at 1:8 `'clubb'`
-- there is no shipped player and no file named `clubb`
-- hint: did you mean `club`?
