sweep { on = 'hall', contact = 2, speed = mps(3) }
-- refused at 1:9 `on`
-- `on` must be an equipment, not the text "hall"
