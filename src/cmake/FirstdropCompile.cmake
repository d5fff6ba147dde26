# Language, warnings and sanitizers for our own targets; a project around ours keeps its own.
function(firstdrop_compile_options target)
  target_compile_features(${target} PRIVATE cxx_std_20)
  set_target_properties(${target} PROPERTIES CXX_EXTENSIONS OFF)
  target_compile_options(
    ${target} PRIVATE -Wall -Wextra -Wpedantic -Wconversion -Wsign-conversion
                      -Wold-style-cast -Wnon-virtual-dtor -Woverloaded-virtual
                      # Of sources compiled as one it would tell the names of a neighbour.
                      $<$<NOT:$<BOOL:${CMAKE_UNITY_BUILD}>>:-Wshadow>
                      # g++ 12 sees overlaps in std::string that are none (GCC bug 105651).
                      $<$<CXX_COMPILER_ID:GNU>:-Wno-restrict>
                      $<$<BOOL:${FIRSTDROP_WARNINGS_AS_ERRORS}>:-Werror>)
  if(FIRSTDROP_SANITIZE)
    target_compile_options(${target} PRIVATE -fsanitize=${FIRSTDROP_SANITIZE}
                                             -fno-sanitize-recover=all -fno-omit-frame-pointer)
    target_link_options(${target} PUBLIC -fsanitize=${FIRSTDROP_SANITIZE})
  endif()
  if(FIRSTDROP_COVERAGE)
    target_compile_options(${target} PRIVATE -fprofile-instr-generate -fcoverage-mapping)
    target_link_options(${target} PUBLIC -fprofile-instr-generate)
  endif()
endfunction()
