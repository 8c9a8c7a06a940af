"""
The parts of `calculators.asking.reading`: each reads one kind of thing that an input may be given by.

Units and names (`units`, `naming`), choices (`choices`), two inputs with the same options (`ends`), picture sizes and
refresh rates (`picture_sizes`, `refresh_rates`), numbers (`scores`, `numbers`), ranges and what is held against each
other (`ranges`), what a network link carries (`measured_links`), two kits of memory (`two_kits`). `plan` holds by what
an input is recognised, `values` what a reading is. They know subjects by the calculators' declarations alone.
"""
