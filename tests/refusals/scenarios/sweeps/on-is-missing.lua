grid { contact = 2, speed = mps(3) }
-- refused at 1:1 `grid`
-- `equipment` is missing
-- hint: put a line back in the braces, such as: equipment = equipment "nine-foot",
