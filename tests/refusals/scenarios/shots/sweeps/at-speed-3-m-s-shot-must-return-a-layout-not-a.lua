shots { over = { speed = { mps(3), mps(4) } },
  shot = function(p) return 7 end }
-- refused at 2:3 `shot`
-- at speed 3 m/s: `shot` must return a layout, not a plain number
-- hint: return bank_shot { … }, { speed = point.speed, send = "line" }
