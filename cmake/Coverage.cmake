add_library(tideover_coverage INTERFACE)
if(TIDEOVER_COVERAGE)
  # Atomic counters, because some questions run on several threads.
  target_compile_options(tideover_coverage INTERFACE --coverage -fprofile-update=atomic)
  target_link_options(tideover_coverage INTERFACE --coverage)
endif()
