local other = require('other')
-- refused at 1:15 `require`
-- nothing is called `require` here
-- hint: a scenario reads profiles and layouts by their names and runs no other code
