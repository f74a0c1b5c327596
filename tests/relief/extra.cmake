find_package(GSL REQUIRED)
target_link_libraries(test_relief PRIVATE GSL::gsl)
