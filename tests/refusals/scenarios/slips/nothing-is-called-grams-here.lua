local mass = grams(160)
-- refused at 1:14 `grams`
-- nothing is called `grams` here
-- hint: a quantity of any unit is written like quantity "160 g"; a function of your own stands above its first call
