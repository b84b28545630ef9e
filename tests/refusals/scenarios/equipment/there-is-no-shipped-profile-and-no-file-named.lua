equipment 'nine-fot'
-- refused at 1:11 `'nine-fot'`
-- there is no shipped profile and no file named `nine-fot`
-- hint: did you mean `nine-foot`?
