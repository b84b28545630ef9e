discover { on = equipment "nine-foot", rail = "left", pocket = "foot-left" }
-- refused at 1:55 `pocket`
-- this makes no bank: the foot-left pocket opens into the left rail itself, so no bank off that rail reaches it
