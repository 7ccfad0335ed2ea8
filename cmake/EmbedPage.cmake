# cmake [-DFOLDER=web/dist -DGZIP=gzip] -DTABLE=x.cpp -DBYTES=x.S -P EmbedPage.cmake
# Writes the table of the page's files (src/server/assets.hpp declares it) and their bytes: each
# file as it is and, where that is smaller, by gzip. An empty table where FOLDER is none.
set(files "")
if(FOLDER AND EXISTS "${FOLDER}/index.html")
  file(GLOB_RECURSE files RELATIVE "${FOLDER}" LIST_DIRECTORIES false "${FOLDER}/*")
  list(SORT files)
endif()
list(LENGTH files count)

cmake_path(GET TABLE PARENT_PATH generated)
file(REMOVE_RECURSE "${generated}/packed")
file(MAKE_DIRECTORY "${generated}/packed")

set(externs "")
set(rows "")
set(bytes "/* Written by the build from the page's files. */\n.section .note.GNU-stack,\"\",%progbits\n.section .rodata\n")

# `path`'s bytes under `symbol`, and in `result` the view of them.
function(embed path symbol result)
  file(SIZE "${path}" size)
  string(APPEND bytes ".globl ${symbol}\n.hidden ${symbol}\n.balign 16\n"
    "${symbol}: .incbin \"${path}\"\n")
  string(APPEND externs "extern const char ${symbol}[];\n")
  set(bytes "${bytes}" PARENT_SCOPE)
  set(externs "${externs}" PARENT_SCOPE)
  set(${result} "{${symbol}, ${size}}" PARENT_SCOPE)
endfunction()

set(number 0)
foreach(name IN LISTS files)
  set(path "${FOLDER}/${name}")
  set(packed_path "${generated}/packed/${number}.gz")
  execute_process(COMMAND "${GZIP}" -9nc "${path}" OUTPUT_FILE "${packed_path}"
    COMMAND_ERROR_IS_FATAL ANY)
  file(SIZE "${path}" size)
  file(SIZE "${packed_path}" packed_size)
  file(SHA256 "${path}" mark)
  string(SUBSTRING "${mark}" 0 16 tag)
  # In the text of the assembler's file too, so that other contents are another text.
  string(APPEND bytes "/* ${name} ${mark} */\n")
  embed("${path}" "tideover_page_${number}" plain)
  set(packed "{}")
  if(packed_size LESS size)
    embed("${packed_path}" "tideover_page_${number}_packed" packed)
  endif()
  string(APPEND rows "    EmbeddedFile{\"${name}\", ${plain}, ${packed}, \"${tag}\"},\n")
  math(EXPR number "${number} + 1")
endforeach()

set(linkage "")
if(count)
  set(linkage "\n// NOLINTBEGIN(*-avoid-c-arrays)\nextern \"C\" {\n${externs}}\n// NOLINTEND(*-avoid-c-arrays)\n")
endif()
file(CONFIGURE OUTPUT "${TABLE}" @ONLY CONTENT
[[// Written by the build from the page's files: @count@ of them.
#include "server/assets.hpp"

#include <array>
@linkage@
namespace tideover::server {

std::span<const EmbeddedFile> embedded_files() {
  static const std::array<EmbeddedFile, @count@> files{{
@rows@  }};
  return files;
}

}  // namespace tideover::server
]])
file(CONFIGURE OUTPUT "${BYTES}" @ONLY CONTENT "${bytes}")
