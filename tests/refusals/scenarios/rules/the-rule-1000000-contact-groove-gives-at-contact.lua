local hall = equipment 'harbour-hall'
compare(grid { equipment = hall, contact = 2, speed = mps(3) },
rule.linear { slope = 1e6, reading = "groove" })
-- refused at 2:1 `compare`
-- the rule `1000000 × contact, groove` gives no start number to play from at contact 2: start is 2000000; it must be from -200 to 200
