# The independent solver that results are compared with: SUNDIALS IDA, serial, no MPI.
# tests/reference/*.cpp (without the *_test.cpp) drive it; tests and benchmarks share them.
find_package(SUNDIALS 6.4 CONFIG
  COMPONENTS ida nvecserial sunmatrixdense sunmatrixsparse sunlinsoldense sunlinsolklu generic)

add_library(tideover_sundials INTERFACE)
if(SUNDIALS_FOUND)
  target_link_libraries(tideover_sundials INTERFACE
    SUNDIALS::ida SUNDIALS::nvecserial SUNDIALS::sunmatrixdense SUNDIALS::sunmatrixsparse
    SUNDIALS::sunlinsoldense SUNDIALS::sunlinsolklu SUNDIALS::generic)
else()
  message(STATUS "SUNDIALS not found: tests and benchmarks against it are left out")
endif()

file(GLOB_RECURSE reference_sources CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/tests/reference/*.cpp")
list(FILTER reference_sources EXCLUDE REGEX "_test\\.cpp$")
if(SUNDIALS_FOUND AND reference_sources)
  add_library(tideover_reference STATIC ${reference_sources})
  target_include_directories(tideover_reference PUBLIC "${PROJECT_SOURCE_DIR}/tests")
  target_link_libraries(tideover_reference
    PUBLIC tideover_library tideover_sundials PRIVATE tideover_options)
else()
  add_library(tideover_reference INTERFACE)
  target_link_libraries(tideover_reference INTERFACE tideover_library tideover_sundials)
endif()
