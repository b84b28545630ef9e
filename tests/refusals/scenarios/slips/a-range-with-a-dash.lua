local banks = grid {
  contact = 2,
  speed = 1.5-5,
}
-- refused at 3:3 `speed`
-- `speed` needs a unit
-- hint: no speed is below 0; a range is span(mps(1.5), mps(5), mps(0.25))
