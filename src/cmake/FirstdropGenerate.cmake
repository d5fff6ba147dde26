# Generates the manual pages and the completions of the program from its own parser and from the
# descriptions of its documents, and writes the schemas. The program firstdrop_generate, which makes
# the pages and completions, is built first and isn't installed.
file(GLOB sources CONFIGURE_DEPENDS src/generate/*.cpp)
add_executable(firstdrop_generate ${sources})
target_link_libraries(firstdrop_generate PRIVATE firstdrop_commands)
firstdrop_compile_options(firstdrop_generate)
target_compile_options(firstdrop_generate PRIVATE $<$<CONFIG:Release>:-O1>)

set(FIRSTDROP_CAN_GENERATE ON)
if(CMAKE_CROSSCOMPILING AND NOT CMAKE_CROSSCOMPILING_EMULATOR)
  set(FIRSTDROP_CAN_GENERATE OFF)
  message(STATUS "Left out: manual pages, completions and schemas. To generate them, the built "
                 "program must run here: set CMAKE_CROSSCOMPILING_EMULATOR")
endif()

# firstdrop_generate_file(FILE WHAT [TEMPLATE])
#
# Generates FILE, a path in the folder firstdrop_generated. TEMPLATE is a path in the source tree.
function(firstdrop_generate_file file what)
  if(NOT FIRSTDROP_CAN_GENERATE)
    return()
  endif()
  set(output ${firstdrop_generated}/${file})
  cmake_path(GET output PARENT_PATH folder)
  file(MAKE_DIRECTORY ${folder})
  list(TRANSFORM ARGN PREPEND ${PROJECT_SOURCE_DIR}/ OUTPUT_VARIABLE template)
  add_custom_command(
    OUTPUT ${output}
    COMMAND firstdrop_generate ${what} ${template} -o ${output}
    DEPENDS firstdrop_generate ${template}
    VERBATIM)
  set_property(GLOBAL APPEND PROPERTY firstdrop_generated_files ${output})
endfunction()

firstdrop_generate_file(man/firstdrop.1 man src/man/firstdrop.1.in)
foreach(document IN ITEMS recipe still plant campaign)
  firstdrop_generate_file(man/firstdrop-${document}.5 "keys of ${document}"
                          src/man/firstdrop-${document}.5.in)
endforeach()
firstdrop_generate_file(man/firstdrop-plan.5 outputs src/man/firstdrop-plan.5.in)
firstdrop_generate_file(completions/firstdrop.bash bash src/completions/firstdrop.bash.in)
firstdrop_generate_file(completions/_firstdrop zsh src/completions/_firstdrop.in)
firstdrop_generate_file(completions/firstdrop.fish fish src/completions/firstdrop.fish.in)

# The schemas are what `firstdrop schemas` writes.
foreach(schema IN ITEMS recipe still plant campaign plan batch-line summary campaign-plan water-run
                 table)
  if(FIRSTDROP_CAN_GENERATE)
    set(file ${firstdrop_generated}/schemas/${schema}.schema.json)
    file(MAKE_DIRECTORY ${firstdrop_generated}/schemas)
    add_custom_command(OUTPUT ${file} COMMAND firstdrop_cli schemas ${schema} -o ${file}
                       DEPENDS firstdrop_cli VERBATIM)
    set_property(GLOBAL APPEND PROPERTY firstdrop_generated_files ${file})
  endif()
endforeach()

get_property(files GLOBAL PROPERTY firstdrop_generated_files)
add_custom_target(firstdrop_generated ALL DEPENDS ${files})
