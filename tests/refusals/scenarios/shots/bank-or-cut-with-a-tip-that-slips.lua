local hall = equipment "harbour-hall"
local open = lay {
  equipment = hall,
  balls = {
    cue    = { position = { centimetres(-20), centimetres(-40) } },
    object = { position = { centimetres(30), centimetres(20) } },
  },
}
open:bank_or_cut { player = player "club", speed = mps(3), tip_side = 0.9 }
-- refused at 9:60 `tip_side`
-- a miscue: the tip stands 0.900 of the ball's radius from the centre, and beyond 0.500 it slips off
-- hint: put the tip nearer the middle, or write allow_miscue = true to play on as if it did not slip
