local function check(value)
  if value > 1 then
    error { code = value }
  end
end
pcall(check, 3)
check(2)
-- refused at 3:5 `error { code = value }`
-- an error was raised that is a table, not a message
