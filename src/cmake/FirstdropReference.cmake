# The API reference, made by Doxygen. `cmake --build … --target reference` writes it into
# reference/html of the build folder. tests/docs checks that it has no gaps.
find_program(FIRSTDROP_DOXYGEN doxygen)
set(FIRSTDROP_REFERENCE_FOLDER ${PROJECT_BINARY_DIR}/reference)
configure_file(${PROJECT_SOURCE_DIR}/src/docs/Doxyfile.in
               ${FIRSTDROP_REFERENCE_FOLDER}/Doxyfile @ONLY)
if(FIRSTDROP_DOXYGEN)
  add_custom_target(reference COMMAND ${FIRSTDROP_DOXYGEN} Doxyfile
                    WORKING_DIRECTORY ${FIRSTDROP_REFERENCE_FOLDER} VERBATIM)
endif()
