rule.lines { lines = { {2, 3} }, between = 'parallel' }
-- refused at 1:34 `between`
-- lines has no option `between`
-- hint: `between` is called `way` here
