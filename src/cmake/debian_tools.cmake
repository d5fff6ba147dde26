# cpack runs this first. Without dpkg-shlibdeps, CPack itself would only warn. It would make a
# package without dependencies, whose program doesn't start where a library is missing.
if(NOT CPACK_GENERATOR STREQUAL "DEB")
  return()
endif()
set(missing)
foreach(tool IN ITEMS dpkg-shlibdeps file)
  find_program(found_${tool} ${tool})
  if(NOT found_${tool})
    list(APPEND missing ${tool})
  endif()
endforeach()
if(missing)
  list(JOIN missing ", " missing)
  # CMake doesn't rewrap an indented line.
  message(FATAL_ERROR "No package was made. These programs, which find out what it depends on, are "
                      "missing: ${missing}. Install them, then call cpack again:\n"
                      "  ${CPACK_FIRSTDROP_SOURCE_DIR}/src/cmake/install-packages build")
endif()
