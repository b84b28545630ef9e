local hall = equipment "harbour-hall"
local open = lay {
  equipment = hall,
  balls = {
    cue    = { position = { centimetres(-20), centimetres(-40) } },
    object = { position = { centimetres(30), centimetres(20) } },
  },
}
open:bank_or_cut { speed = mps(3) }
-- refused at 9:6 `bank_or_cut`
-- bank_or_cut needs `player`: a player
