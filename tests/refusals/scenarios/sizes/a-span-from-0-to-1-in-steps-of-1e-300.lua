local speeds = span(0, 1, 1e-300)
-- refused at 1:27 `1e-300`
-- a span from 0 to 1 in steps of 1e-300 would have endlessly many values; at most 100000 are made
