add_dependencies(test_faults hummock)
