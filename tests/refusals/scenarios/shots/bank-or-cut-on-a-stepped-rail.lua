local stepped = equipment("harbour-hall"):with { rail_model = "compliant" }
local open = lay {
  equipment = stepped,
  balls = {
    cue    = { position = { centimetres(-20), centimetres(-40) } },
    object = { position = { centimetres(30), centimetres(20) } },
  },
}
open:bank_or_cut { player = player "club", speed = mps(3) }
-- refused at 9:6 `bank_or_cut`
-- bank or cut plays thousands of strokes, which takes a stepped rail model too long
-- hint: take a table with another rail model
