add_dependencies(test_cli hummock)
