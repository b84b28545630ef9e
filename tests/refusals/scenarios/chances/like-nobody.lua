player { like = 'nobody' }
-- refused at 1:10 `like`
-- there is no shipped player and no file named `nobody`
-- hint: shipped players: steady, club, beginner
