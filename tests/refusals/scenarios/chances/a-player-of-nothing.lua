player {}
-- refused at 1:1 `player`
-- this says nothing of the player
-- hint: name one, player "club", or say how theirs differ, player { aim = milliradians(3) }
