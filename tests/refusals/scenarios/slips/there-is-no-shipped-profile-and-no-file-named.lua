cushion 'grippy-nose'
-- refused at 1:9 `'grippy-nose'`
-- there is no shipped profile and no file named `grippy-nose`
-- hint: did you mean `cushions/grippy-nose`?
