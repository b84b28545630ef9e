local hall = equipment "harbour-hall"
local open = lay {
  equipment = hall,
  balls = {
    cue    = { position = { centimetres(-20), centimetres(-40) } },
    object = { position = { centimetres(30), centimetres(20) } },
  },
}
open:bank_or_cut { player = player "club", speed = mps(3), pockets = { "foot-rigth" } }
-- refused at 9:72 `"foot-rigth"`
-- `pockets`, item 1, must be "head-left", "head-right", "foot-left", "foot-right", "side-left" or "side-right", not the text "foot-rigth"
-- hint: did you mean "foot-right"?
