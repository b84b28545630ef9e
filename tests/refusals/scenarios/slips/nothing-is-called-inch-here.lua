print(inch(5))
-- refused at 1:7 `inch`
-- nothing is called `inch`; `inches` stands in
-- hint: write `inches`
