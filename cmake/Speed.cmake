# speed/<name>.cpp is one benchmark; it prints lines of the form `name: value unit`.
file(GLOB speed_sources CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/speed/*.cpp")
foreach(source IN LISTS speed_sources)
  cmake_path(GET source STEM name)
  add_executable(speed_${name} "${source}")
  target_compile_definitions(speed_${name} PRIVATE TIDEOVER_SOURCE_DIR="${PROJECT_SOURCE_DIR}")
  target_link_libraries(speed_${name} PRIVATE
    tideover_library tideover_options tideover_third_party tideover_reference)
  set_target_properties(speed_${name} PROPERTIES
    OUTPUT_NAME ${name} RUNTIME_OUTPUT_DIRECTORY "${PROJECT_BINARY_DIR}/speed")
endforeach()
