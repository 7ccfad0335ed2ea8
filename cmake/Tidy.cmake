# clang-tidy as part of the build, so that an unchanged file is not read again.
if(TIDEOVER_TIDY)
  find_program(TIDEOVER_CLANG_TIDY NAMES clang-tidy-14 clang-tidy REQUIRED)
  set(tidied tideover_library)
  if(TARGET tideover)
    list(APPEND tidied tideover)
  endif()
  set_target_properties(${tidied} PROPERTIES
    CXX_CLANG_TIDY "${TIDEOVER_CLANG_TIDY};--warnings-as-errors=*;--quiet")
endif()
