# The page in a browser: one test, web/page, where node and chromium are found and the program
# carries a page. Its libraries come with web/package-lock.json.
# Off until all of them have held in one run of ctest: -DTIDEOVER_WEB_TESTS=ON asks for them.
option(TIDEOVER_WEB_TESTS "Run the tests of the page in a browser" OFF)
if(NOT TIDEOVER_WEB_TESTS)
  return()
endif()
if(DEFINED TIDEOVER_WEB AND NOT TIDEOVER_WEB)
  return()
endif()
find_program(TIDEOVER_NODE node)
find_program(TIDEOVER_NPM npm)
find_program(TIDEOVER_CHROMIUM NAMES chromium chromium-browser)
if(NOT TARGET tideover OR NOT TIDEOVER_NODE OR NOT TIDEOVER_NPM OR NOT TIDEOVER_CHROMIUM)
  message(STATUS "No tests of the page: they need the program, node, npm and chromium")
  return()
endif()

set(web_tests_page "${PROJECT_BINARY_DIR}/web-tests/page")
add_test(NAME web/page
  COMMAND "${CMAKE_COMMAND}"
    "-DNODE=${TIDEOVER_NODE}" "-DNPM=${TIDEOVER_NPM}"
    "-DSOURCE=${PROJECT_SOURCE_DIR}" "-DPAGE=${web_tests_page}"
    -P "${PROJECT_SOURCE_DIR}/cmake/RunWebTests.cmake")
set_tests_properties(web/page PROPERTIES
  LABELS web TIMEOUT 300
  ENVIRONMENT "TIDEOVER_PROGRAM=$<TARGET_FILE:tideover>;TIDEOVER_PAGE=${web_tests_page};TIDEOVER_CHROMIUM=${TIDEOVER_CHROMIUM}")
