# cmake -DNODE= -DNPM= -DSOURCE= -DPAGE= -P RunWebTests.cmake
# The page's libraries where they are missing or older than their list, the page itself, its tests.
set(web "${SOURCE}/web")
set(stamp "${web}/node_modules/.package-lock.json")  # npm writes it when it is done
if(NOT EXISTS "${stamp}" OR "${web}/package-lock.json" IS_NEWER_THAN "${stamp}")
  execute_process(COMMAND "${NPM}" ci --ignore-scripts WORKING_DIRECTORY "${web}"
    COMMAND_ERROR_IS_FATAL ANY)
endif()
execute_process(COMMAND "${NODE}" build.mjs "${PAGE}" WORKING_DIRECTORY "${web}"
  COMMAND_ERROR_IS_FATAL ANY)
file(GLOB tests "${SOURCE}/tests/web/*.test.mjs")
execute_process(COMMAND "${NODE}" --test --test-concurrency=2 ${tests}
  WORKING_DIRECTORY "${SOURCE}/tests/web" COMMAND_ERROR_IS_FATAL ANY)
