local banks = sampled { points = 64 }
-- refused at 1:15 `sampled`
-- nothing is called `sampled`; `sample` stands in
-- hint: write `sample`
