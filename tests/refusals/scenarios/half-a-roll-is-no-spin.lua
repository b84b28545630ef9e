local banks = grid {
  equipment = equipment "nine-foot", contact = 2, speed = mps(3), off_rail = inches(0), spin = "half roll",
}
-- refused at 2:96 `"half roll"`
-- `spin` must be "stun", "roll" or "draw", not the text "half roll"
-- hint: a part of natural roll is a number: roll = 0.5 in place of spin; below 0 is draw
