# Run by FirstdropEmbed.cmake. Writes the tables in FILES as the C++ source OUTPUT.

# Turns a file into the C++ definition of a character array. The literal is split because
# compilers limit the length of a single one.
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

set(text "// Generated from data/ by embed_tables.cmake.\n#include \"firstdrop/readers/tables_json.hpp\"\n\n")
string(APPEND text "namespace firstdrop {\nnamespace {\n")
set(initializer "")
foreach(file IN LISTS FILES)
  get_filename_component(name ${file} NAME_WE)
  embedded_text(${file} ${name}_text array)
  string(APPEND text "${array}")
  string(APPEND initializer "  texts.${name} = {${name}_text, sizeof ${name}_text - 1};\n")
endforeach()
string(APPEND text "}  // namespace\n\nTableTexts embedded_table_texts() {\n  TableTexts texts;\n")
string(APPEND text "${initializer}  return texts;\n}\n\n}  // namespace firstdrop\n")
file(WRITE ${OUTPUT} "${text}")
