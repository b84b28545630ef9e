local hall = equipment 'nine-foot'
route { equipment = hall, pocket = 'head-right', speed = mps(3),
rails = { 'left' } }
-- refused at 2:1 `route`
-- route needs `from`: where the ball lies
-- hint: for instance from = { position = { metres(0.2), metres(-0.2) } }
