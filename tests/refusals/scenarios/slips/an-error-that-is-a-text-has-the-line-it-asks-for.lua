local function needs(value)
  if not value then
    error('give it a value', 2)
  end
end
needs(1)
needs(nil)
-- refused at 7:1 `needs(nil)`
-- give it a value
