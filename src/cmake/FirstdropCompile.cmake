# Sets the language standard, warnings and sanitizers of our own targets. An enclosing project keeps
# its own settings.
function(firstdrop_compile_options target)
  target_compile_features(${target} PRIVATE cxx_std_20)
  set_target_properties(${target} PROPERTIES CXX_EXTENSIONS OFF)
  target_compile_options(
    ${target} PRIVATE -Wall -Wextra -Wpedantic -Wconversion -Wsign-conversion
                      -Wold-style-cast -Wnon-virtual-dtor -Woverloaded-virtual
                      # In a unity build it would report names from other sources.
                      $<$<NOT:$<BOOL:${CMAKE_UNITY_BUILD}>>:-Wshadow>
                      # g++ 12 falsely reports overlaps in std::string (GCC bug 105651).
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
