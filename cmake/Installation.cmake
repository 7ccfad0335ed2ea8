# cmake --install: the program with its shelf, examples and papers, and, as a component of its
# own, the library for those who build on it.
set(data_dir "${CMAKE_INSTALL_DATADIR}/tideover")

if(TARGET tideover)
  install(TARGETS tideover COMPONENT program)
endif()
foreach(folder IN ITEMS shelf examples)
  if(EXISTS "${PROJECT_SOURCE_DIR}/${folder}")
    install(DIRECTORY ${folder} DESTINATION "${data_dir}" COMPONENT program
      PATTERN out EXCLUDE PATTERN ".git*" EXCLUDE)
  endif()
endforeach()

file(GLOB documents CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/docs/*.md")
list(APPEND documents "${PROJECT_SOURCE_DIR}/README.md" "${PROJECT_SOURCE_DIR}/NOTICE"
  "${PROJECT_SOURCE_DIR}/CHANGELOG.md")
foreach(document IN LISTS documents)
  if(EXISTS "${document}")
    install(FILES "${document}" DESTINATION "${CMAKE_INSTALL_DOCDIR}" COMPONENT program)
  endif()
endforeach()
install(FILES "${PROJECT_SOURCE_DIR}/packaging/copyright"
  DESTINATION "${CMAKE_INSTALL_DOCDIR}" COMPONENT program)

# Compressed as the distribution wants it: best ratio, no time stamp.
find_program(TIDEOVER_GZIP gzip REQUIRED)
function(tideover_install_compressed source destination)
  cmake_path(GET source FILENAME name)
  set(compressed "${PROJECT_BINARY_DIR}/compressed/${name}.gz")
  add_custom_command(OUTPUT "${compressed}"
    COMMAND "${CMAKE_COMMAND}" -E make_directory "${PROJECT_BINARY_DIR}/compressed"
    COMMAND sh -c "\"$1\" -9nc \"$2\" > \"$3\"" sh "${TIDEOVER_GZIP}" "${source}" "${compressed}"
    DEPENDS "${source}" VERBATIM)
  string(MAKE_C_IDENTIFIER "compressed_${name}" target)
  add_custom_target(${target} ALL DEPENDS "${compressed}")
  install(FILES "${compressed}" DESTINATION "${destination}" COMPONENT program)
endfunction()

tideover_install_compressed("${PROJECT_SOURCE_DIR}/packaging/changelog" "${CMAKE_INSTALL_DOCDIR}")
file(GLOB man_pages CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/docs/man/*.1")
foreach(page IN LISTS man_pages)
  tideover_install_compressed("${page}" "${CMAKE_INSTALL_MANDIR}/man1")
endforeach()

# The schema is what the program says it is.
if(TARGET tideover)
  set(schema "${PROJECT_BINARY_DIR}/sheet.schema.json")
  install(CODE "
    execute_process(COMMAND \"$<TARGET_FILE:tideover>\" schema
      OUTPUT_FILE \"${schema}\" ERROR_QUIET RESULT_VARIABLE status)
    if(NOT status EQUAL 0)
      message(FATAL_ERROR \"tideover schema ended with \${status}\")
    endif()" COMPONENT program)
  install(FILES "${schema}" DESTINATION "${data_dir}" COMPONENT program)
endif()

install(TARGETS tideover_library tideover_arithmetic EXPORT tideover_targets COMPONENT development
  FILE_SET HEADERS DESTINATION "${CMAKE_INSTALL_INCLUDEDIR}/tideover")
install(EXPORT tideover_targets NAMESPACE tideover:: FILE tideover-targets.cmake
  DESTINATION "${CMAKE_INSTALL_LIBDIR}/cmake/tideover" COMPONENT development)
include(CMakePackageConfigHelpers)
configure_package_config_file(packaging/tideover-config.cmake.in tideover-config.cmake
  INSTALL_DESTINATION "${CMAKE_INSTALL_LIBDIR}/cmake/tideover")
write_basic_package_version_file(tideover-config-version.cmake COMPATIBILITY SameMinorVersion)
install(FILES "${PROJECT_BINARY_DIR}/tideover-config.cmake"
  "${PROJECT_BINARY_DIR}/tideover-config-version.cmake"
  DESTINATION "${CMAKE_INSTALL_LIBDIR}/cmake/tideover" COMPONENT development)
