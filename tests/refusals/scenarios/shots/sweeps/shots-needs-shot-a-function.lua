shots { over = { speed = mps(3) } }
-- refused at 1:1 `shots`
-- shots needs `shot`: a function
