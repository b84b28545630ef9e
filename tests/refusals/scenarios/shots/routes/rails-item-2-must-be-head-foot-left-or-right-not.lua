local hall = equipment 'nine-foot'
route { equipment = hall, pocket = 'head-right', speed = mps(3),
from = { position = { metres(0), metres(0) } }, rails = { 'left', 'lefft' } }
-- refused at 3:67 `'lefft'`
-- `rails`, item 2, must be "head", "foot", "left" or "right", not the text "lefft"
-- hint: did you mean "left"?
