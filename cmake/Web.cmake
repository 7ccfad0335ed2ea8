# The page: npm bundles web/ into web/dist, and the program carries what lies there
# (src/server/assets.hpp declares the table). Without npm, without a network to fetch its packages
# from, or with TIDEOVER_WEB=off the table is empty, and `tideover open` says so.
set(TIDEOVER_WEB auto CACHE STRING "auto: carry the page where npm is found; off: carry none")
set_property(CACHE TIDEOVER_WEB PROPERTY STRINGS auto off)
if(NOT TIDEOVER_WEB MATCHES "^(auto|off|OFF)$")
  message(FATAL_ERROR "TIDEOVER_WEB is ${TIDEOVER_WEB}; it can be auto or off")
endif()

set(web_dir "${PROJECT_SOURCE_DIR}/web")

file(GLOB_RECURSE web_sources CONFIGURE_DEPENDS "${web_dir}/src/*")
file(GLOB web_settings CONFIGURE_DEPENDS "${web_dir}/*.json" "${web_dir}/*.mjs")
find_program(TIDEOVER_NPM npm)
find_program(TIDEOVER_GZIP gzip REQUIRED)
if(TIDEOVER_WEB STREQUAL auto AND TIDEOVER_NPM AND EXISTS "${web_dir}/package.json")
  set(page_table "${PROJECT_BINARY_DIR}/generated/embedded_files.cpp")
  set(page_bytes "${PROJECT_BINARY_DIR}/generated/embedded_files.S")
  # The stamp is missing after a build that had no network: the next one tries again.
  add_custom_command(
    OUTPUT "${page_table}" "${page_bytes}" "${PROJECT_BINARY_DIR}/generated/page.stamp"
    COMMAND "${CMAKE_COMMAND}" "-DWEB=${web_dir}" "-DNPM=${TIDEOVER_NPM}"
      "-DSTAMP=${PROJECT_BINARY_DIR}/generated/page.stamp"
      -P "${PROJECT_SOURCE_DIR}/cmake/BundlePage.cmake"
    COMMAND "${CMAKE_COMMAND}" "-DFOLDER=${web_dir}/dist" "-DGZIP=${TIDEOVER_GZIP}"
      "-DTABLE=${page_table}" "-DBYTES=${page_bytes}"
      -P "${PROJECT_SOURCE_DIR}/cmake/EmbedPage.cmake"
    DEPENDS ${web_sources} ${web_settings} "${PROJECT_SOURCE_DIR}/cmake/BundlePage.cmake"
      "${PROJECT_SOURCE_DIR}/cmake/EmbedPage.cmake"
    COMMENT "Bundling the page" VERBATIM)
  # By itself, because the options of the library are options for C++.
  enable_language(ASM)
  add_library(tideover_page OBJECT "${page_bytes}")
  target_sources(tideover_library PRIVATE "${page_table}" $<TARGET_OBJECTS:tideover_page>)
else()
  # Files of other names: those above must look as old as they are when the page comes back.
  set(page_table "${PROJECT_BINARY_DIR}/generated/no_embedded_files.cpp")
  set(page_bytes "${PROJECT_BINARY_DIR}/generated/no_embedded_files.S")
  target_sources(tideover_library PRIVATE "${page_table}")
  execute_process(
    COMMAND "${CMAKE_COMMAND}" "-DTABLE=${page_table}" "-DBYTES=${page_bytes}"
      -P "${PROJECT_SOURCE_DIR}/cmake/EmbedPage.cmake"
    COMMAND_ERROR_IS_FATAL ANY)
endif()
