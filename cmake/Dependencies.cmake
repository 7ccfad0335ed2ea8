# Everything comes from the distribution; packages/ lists the names. Only the page
# (Web.cmake) takes packages of npm.
find_package(fmt 9 REQUIRED CONFIG)
find_package(CLI11 2.1 REQUIRED CONFIG)
find_package(nlohmann_json 3.11 REQUIRED CONFIG)
find_package(Eigen3 3.4 REQUIRED CONFIG)
find_package(Boost 1.74 REQUIRED)
find_package(Threads REQUIRED)

# toml++ is used as headers only, so that the program does not depend on its shared library.
find_path(TIDEOVER_TOMLPLUSPLUS_DIR toml++/toml.h REQUIRED)
mark_as_advanced(TIDEOVER_TOMLPLUSPLUS_DIR)

# Headers that only the library's own sources see. tests/layout says which file may include which.
add_library(tideover_third_party INTERFACE)
target_include_directories(tideover_third_party SYSTEM INTERFACE "${TIDEOVER_TOMLPLUSPLUS_DIR}")
target_link_libraries(tideover_third_party INTERFACE
  CLI11::CLI11 nlohmann_json::nlohmann_json Eigen3::Eigen Boost::headers)
