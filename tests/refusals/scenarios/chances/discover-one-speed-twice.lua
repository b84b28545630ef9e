local hall = equipment 'nine-foot'
discover { on = hall, speeds = { 'soft', 'firm', 'soft' } }
-- refused at 2:23 `speeds`
-- soft stands here twice
