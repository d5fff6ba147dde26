# Turns data files into one C++ source with a raw string per file, so that the program carries its
# tables. String literals are split because compilers bound their length.
set(FIRSTDROP_EMBED_SCRIPT ${CMAKE_CURRENT_LIST_DIR}/embed_tables.cmake)

function(firstdrop_embed out_variable)
  set(output ${CMAKE_CURRENT_BINARY_DIR}/embedded_tables.cpp)
  list(TRANSFORM ARGN PREPEND ${CMAKE_CURRENT_SOURCE_DIR}/ OUTPUT_VARIABLE files)
  add_custom_command(
    OUTPUT ${output}
    COMMAND ${CMAKE_COMMAND} -DOUTPUT=${output} "-DFILES=${files}" -P ${FIRSTDROP_EMBED_SCRIPT}
    DEPENDS ${files} ${FIRSTDROP_EMBED_SCRIPT}
    VERBATIM)
  set(${out_variable} ${output} PARENT_SCOPE)
endfunction()
