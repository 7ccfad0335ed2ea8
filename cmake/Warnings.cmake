add_library(tideover_warnings INTERFACE)
target_compile_options(tideover_warnings INTERFACE
  -Wall -Wextra -Wpedantic
  -Wshadow -Wconversion -Wsign-conversion -Wdouble-promotion
  -Wold-style-cast -Wcast-align -Wcast-qual
  -Wnon-virtual-dtor -Woverloaded-virtual -Wextra-semi
  -Wformat=2 -Wimplicit-fallthrough -Wundef -Wunused
  # A designated initialiser names what differs; the members it leaves out keep their defaults.
  -Wno-missing-field-initializers)

if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  target_compile_options(tideover_warnings INTERFACE
    -Wuseless-cast -Wzero-as-null-pointer-constant -Wduplicated-cond -Wduplicated-branches -Wlogical-op
    # A false alarm of GCC 12 on std::string's operator+ when it inlines (GCC bug 105651).
    -Wno-restrict)
else()
  target_compile_options(tideover_warnings INTERFACE -Wnull-dereference)
endif()

if(TIDEOVER_WERROR)
  target_compile_options(tideover_warnings INTERFACE -Werror)
endif()
