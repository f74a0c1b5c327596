add_dependencies(test_escapes hummock)
target_compile_definitions(test_escapes PRIVATE HUMMOCK_ESCAPES="${CMAKE_CURRENT_SOURCE_DIR}/escapes")
