local hall = equipment "harbour-hall"
local open = lay {
  equipment = hall,
  balls = {
    cue    = { position = { centimetres(-20), centimetres(-40) } },
    object = { position = { centimetres(30), centimetres(20) } },
  },
}
open:bank_or_cut { player = player "club", speed = mps(3), rule = 2.2 }
-- refused at 9:60 `rule`
-- `rule` must be a rule, not a plain number
