# ccache makes a second build tree, and every rebuild after a switch of branch, cheap.
find_program(TIDEOVER_CCACHE ccache)
if(TIDEOVER_CCACHE AND NOT CMAKE_CXX_COMPILER_LAUNCHER)
  set(CMAKE_CXX_COMPILER_LAUNCHER "${TIDEOVER_CCACHE}")
endif()
