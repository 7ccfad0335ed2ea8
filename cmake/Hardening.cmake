# What the shipped program is hardened with. The checks of libstdc++ stay on: an index out of
# range ends the program instead of giving a wrong verdict.
add_library(tideover_hardening INTERFACE)
if(TIDEOVER_HARDENING)
  target_compile_options(tideover_hardening INTERFACE
    -U_FORTIFY_SOURCE -D_FORTIFY_SOURCE=3
    -fstack-protector-strong -fstack-clash-protection
    $<$<STREQUAL:${CMAKE_SYSTEM_PROCESSOR},x86_64>:-fcf-protection>)
  target_compile_definitions(tideover_hardening INTERFACE _GLIBCXX_ASSERTIONS)
  target_link_options(tideover_hardening INTERFACE -pie -Wl,-z,relro,-z,now,-z,noexecstack)
endif()
