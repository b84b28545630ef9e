local hall = equipment 'nine-foot'
print(line { equipment = hall, contact = 1e300, start = 2 }.sight.contact)
-- refused at 2:42 `1e300`
-- `contact` is 1e300; it must be from -40 to 40
