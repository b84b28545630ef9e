local hall = equipment "harbour-hall"
local open = lay {
  equipment = hall,
  balls = {
    cue    = { position = { centimetres(-20), centimetres(-40) } },
    object = { position = { centimetres(30), centimetres(20) } },
  },
}
local found = open:bank_or_cut { player = player "club", speed = mps(3), pockets = { "foot-left" } }
print(found.best)
-- refused at 10:13 `best`
-- an answer has no `best`
-- hint: it has: better, sentence, report, bank, cut, apart, apart_error, ways
