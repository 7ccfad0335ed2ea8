add_library(tideover_coverage INTERFACE)
if(TIDEOVER_COVERAGE)
  # Only whether a line was reached is asked, and two threads that count at once cannot make that
  # nought again: plain counters. Atomic ones made a report of seconds take many minutes.
  target_compile_options(tideover_coverage INTERFACE --coverage -fprofile-update=single)
  target_link_options(tideover_coverage INTERFACE --coverage)
endif()
