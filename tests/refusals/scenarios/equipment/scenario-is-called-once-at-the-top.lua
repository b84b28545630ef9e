scenario { shows = 'a' }
scenario { shows = 'b' }
-- refused at 2:1 `scenario`
-- `scenario` is called once, at the top
