local hall = equipment "harbour-hall"
local open = lay {
  equipment = hall,
  balls = {
    cue    = { position = { centimetres(-20), centimetres(-40) } },
    object = { position = { centimetres(30), centimetres(20) } },
  },
}
open:bank_or_cut_map { player = player "club", speed = mps(3), step = 0.01 }
-- refused at 9:71 `0.01`
-- `step` must be from 0.2 to 1, not 0.01
