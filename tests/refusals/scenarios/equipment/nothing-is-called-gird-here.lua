gird {}
-- refused at 1:1 `gird`
-- nothing is called `gird` here
-- hint: did you mean `grid`?
