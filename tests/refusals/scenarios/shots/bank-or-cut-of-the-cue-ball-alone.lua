local alone = lay {
  equipment = equipment "harbour-hall",
  balls = { cue = { position = { centimetres(-20), centimetres(-40) } } },
}
alone:bank_or_cut { player = player "club", speed = mps(3) }
-- refused at 5:7 `bank_or_cut`
-- which ball is to be banked or cut?
-- hint: call a ball `object`, or give the layout a `pocket` and its `ball`
