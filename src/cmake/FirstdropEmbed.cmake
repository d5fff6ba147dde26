# Turns the data files of the tables into one C++ source with a character array per file, so that the
# program contains them. embed_tables.cmake writes the source.
set(FIRSTDROP_EMBED_FOLDER ${CMAKE_CURRENT_LIST_DIR})

function(firstdrop_embed_tables out_variable)
  set(output ${CMAKE_CURRENT_BINARY_DIR}/embedded_tables.cpp)
  set(script ${FIRSTDROP_EMBED_FOLDER}/embed_tables.cmake)
  list(TRANSFORM ARGN PREPEND ${CMAKE_CURRENT_SOURCE_DIR}/ OUTPUT_VARIABLE files)
  add_custom_command(
    OUTPUT ${output}
    COMMAND ${CMAKE_COMMAND} -DOUTPUT=${output} "-DFILES=${files}" -P ${script}
    DEPENDS ${files} ${script}
    VERBATIM)
  set(${out_variable} ${output} PARENT_SCOPE)
endfunction()

# Writes the codes of the findings table as the header finding_codes.hpp in `folder`. This happens
# at configure time, because some tools read the header without building anything.
function(firstdrop_finding_codes table folder)
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${table})
  file(READ ${table} text)
  string(JSON count LENGTH "${text}" entries)
  math(EXPR last "${count} - 1")
  set(codes "")
  foreach(i RANGE ${last})
    string(JSON code MEMBER "${text}" entries ${i})
    string(APPEND codes "    \"${code}\",\n")
  endforeach()
  file(CONFIGURE OUTPUT ${folder}/finding_codes.hpp @ONLY CONTENT
"// Generated from data/findings.json by FirstdropEmbed.cmake.
#pragma once

#include <string_view>

namespace firstdrop {

inline constexpr std::string_view finding_codes[] = {
@codes@};

}  // namespace firstdrop
")
endfunction()
