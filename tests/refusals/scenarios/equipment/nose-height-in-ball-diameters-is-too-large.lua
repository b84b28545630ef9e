local hall = equipment 'nine-foot'
hall:with { nose_height = millimetres(55) }
-- refused at 2:13 `nose_height`
-- nose_height in ball diameters is 0.96238; it must be from 0.5 to 0.7
-- hint: for a ball of 57.150 mm the nose is from 28.575 mm to 40.005 mm high
