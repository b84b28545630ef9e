grid { equipment = 'hall', contact = 2, speed = mps(3) }
-- refused at 1:8 `equipment`
-- `equipment` must be an equipment, not the text "hall"
-- hint: write equipment "hall"
