# Turns a file into the C++ definition of a character array, for embed_tables and embed_schemas. The
# literal is split because compilers limit the length of a single one.
function(embedded_text file name out_variable)
  set(chunk 8000)
  file(READ ${file} bytes HEX)
  string(LENGTH "${bytes}" hex_length)
  # Joined, the literals are longer than the standard requires compilers to accept. g++ and clang
  # accept them.
  set(text "#pragma GCC diagnostic ignored \"-Woverlength-strings\"\nconstexpr char ${name}[] =\n")
  set(at 0)
  math(EXPR step "${chunk} * 2")
  while(at LESS hex_length)
    string(SUBSTRING "${bytes}" ${at} ${step} part)
    string(REGEX REPLACE "(..)" "\\\\x\\1" part "${part}")
    string(APPEND text "    \"${part}\"\n")
    math(EXPR at "${at} + ${step}")
  endwhile()
  set(${out_variable} "${text}    ;\n" PARENT_SCOPE)
endfunction()
