equipment 'missing/hall.yaml'
-- refused at 1:11 `'missing/hall.yaml'`
-- there is no file `missing/hall.yaml`
