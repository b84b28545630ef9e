local all = {}
while true do
  all[#all + 1] = { 1, 2, 3 }
end
-- refused at 2:1 `while true do`
-- the script needs more memory than it may use
-- hint: look for a table or string that keeps growing
-- ends with 4
