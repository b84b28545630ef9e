discover { on = 'nine-foot' }
-- refused at 1:12 `on`
-- `on` must be an equipment, not the text "nine-foot"
-- hint: write equipment "nine-foot"
