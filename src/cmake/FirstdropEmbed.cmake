# Turns data files into one C++ source with a raw string per file, so that the program carries its
# tables and schemas. `what` is tables or schemas: embed_${what}.cmake writes embedded_${what}.cpp.
set(FIRSTDROP_EMBED_FOLDER ${CMAKE_CURRENT_LIST_DIR})

function(firstdrop_embed out_variable what)
  set(output ${CMAKE_CURRENT_BINARY_DIR}/embedded_${what}.cpp)
  set(script ${FIRSTDROP_EMBED_FOLDER}/embed_${what}.cmake)
  list(TRANSFORM ARGN PREPEND ${CMAKE_CURRENT_SOURCE_DIR}/ OUTPUT_VARIABLE files)
  add_custom_command(
    OUTPUT ${output}
    COMMAND ${CMAKE_COMMAND} -DOUTPUT=${output} "-DFILES=${files}" -P ${script}
    DEPENDS ${files} ${script} ${FIRSTDROP_EMBED_FOLDER}/embedded_text.cmake
    VERBATIM)
  set(${out_variable} ${output} PARENT_SCOPE)
endfunction()
