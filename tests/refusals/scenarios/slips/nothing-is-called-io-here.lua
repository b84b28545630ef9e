local file = io.open('notes.txt')
-- refused at 1:14 `io`
-- nothing is called `io` here
-- hint: a scenario reads profiles and layouts by their names and runs no other code
