add_dependencies(test_report hummock)
