# An error found by a sanitizer ends the program, so that no test can pass over it.
# float-divide-by-zero is not part of `undefined` and has to be named: an infinite current is a
# fault here, not a value.
add_library(tideover_sanitizers INTERFACE)
if(TIDEOVER_SANITIZE)
  set(sanitizer_flags
    "-fsanitize=${TIDEOVER_SANITIZE}" -fno-sanitize-recover=all -fno-omit-frame-pointer)
  target_compile_options(tideover_sanitizers INTERFACE ${sanitizer_flags})
  target_link_options(tideover_sanitizers INTERFACE ${sanitizer_flags})
endif()
