# One executable per folder of tests/: the folder names what its tests prove. ctest sees every
# test case by itself, labelled with its folder, so `ctest -L identity` runs one kind.
find_package(doctest 2.4 REQUIRED CONFIG)
find_package(rapidcheck REQUIRED CONFIG)
include(doctest)

# Kinds that hold results against SUNDIALS, and kinds that may take minutes.
set(kinds_with_reference convergence reference)
set(slow_kinds cli convergence identity reference)

# What the tests see of the outside: where the sources are, and the program that was built.
add_library(tideover_test_options INTERFACE)
target_include_directories(tideover_test_options INTERFACE "${PROJECT_SOURCE_DIR}/tests")
target_compile_definitions(tideover_test_options INTERFACE
  DOCTEST_CONFIG_SUPER_FAST_ASSERTS
  TIDEOVER_SOURCE_DIR="${PROJECT_SOURCE_DIR}"
  TIDEOVER_PROGRAM="${PROJECT_BINARY_DIR}/tideover"
  TIDEOVER_VERSION="${PROJECT_VERSION}")
# Test code itself gains nothing from more than -O1, and builds in half the time.
target_compile_options(tideover_test_options INTERFACE
  $<$<NOT:$<CONFIG:Debug>>:-O1>)
if(TIDEOVER_SANITIZE AND CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  # Under -fsanitize=address g++ 12 takes what <regex> holds for uninitialised.
  target_compile_options(tideover_test_options INTERFACE -Wno-maybe-uninitialized)
endif()
target_link_libraries(tideover_test_options INTERFACE
  tideover_library tideover_options tideover_third_party doctest::doctest rapidcheck)

file(GLOB test_support_sources CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/tests/support/*.cpp")
add_library(tideover_test_support OBJECT ${test_support_sources})
target_link_libraries(tideover_test_support PRIVATE tideover_test_options)
# Slow builds (sanitizers, coverage) state in their preset how many of their random builds the
# tests go through; support/random_share.hpp is the one place that heeds it.
target_compile_definitions(tideover_test_support PRIVATE
  TIDEOVER_RANDOM_SHARE=${TIDEOVER_RANDOM_SHARE})

function(tideover_test_kind kind)
  file(GLOB_RECURSE sources CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/tests/${kind}/*.cpp")
  if(kind STREQUAL "reference")
    list(FILTER sources INCLUDE REGEX "_test\\.cpp$")
  endif()
  add_executable(test_${kind} ${sources} $<TARGET_OBJECTS:tideover_test_support>)
  target_link_libraries(test_${kind} PRIVATE tideover_test_options)
  if(kind IN_LIST kinds_with_reference)
    target_link_libraries(test_${kind} PRIVATE tideover_reference)
  endif()
  if(TARGET tideover)
    add_dependencies(test_${kind} tideover)
  endif()
  set(timeout 60)
  if(kind IN_LIST slow_kinds)
    set(timeout 1500)
  endif()
  if(TIDEOVER_SANITIZE OR TIDEOVER_COVERAGE)
    math(EXPR timeout "${timeout} * 10")  # a checked run takes ten to thirty times as long
  endif()
  doctest_discover_tests(test_${kind}
    TEST_PREFIX "${kind}/"
    WORKING_DIRECTORY "${PROJECT_SOURCE_DIR}"
    PROPERTIES LABELS ${kind} TIMEOUT ${timeout})
endfunction()

file(GLOB_RECURSE test_files CONFIGURE_DEPENDS RELATIVE "${PROJECT_SOURCE_DIR}/tests"
  "${PROJECT_SOURCE_DIR}/tests/*_test.cpp")
set(test_kinds ${test_files})
list(TRANSFORM test_kinds REPLACE "/.*" "")
list(REMOVE_DUPLICATES test_kinds)
if(TIDEOVER_TEST_KINDS)
  # The preset that looks for data races takes the kinds in which threads run: questions (unit)
  # and the whole program (cli). All else runs on one thread and has nothing to race with.
  list(FILTER test_kinds INCLUDE REGEX "^(${TIDEOVER_TEST_KINDS})$")
endif()
foreach(kind IN LISTS test_kinds)
  if(kind STREQUAL "reference" AND NOT SUNDIALS_FOUND)
    continue()
  endif()
  tideover_test_kind(${kind})
endforeach()
