gird {}
-- refused at 1:1 `gird`
-- nothing is called `gird`; `grid` stands in
-- hint: write `grid`
