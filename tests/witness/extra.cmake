add_dependencies(test_witness hummock)
# Its flights are shot by the million: optimised, and so without the header that is compiled with -O0.
target_compile_options(test_witness PRIVATE -O2)
set_target_properties(test_witness PROPERTIES DISABLE_PRECOMPILE_HEADERS ON)
