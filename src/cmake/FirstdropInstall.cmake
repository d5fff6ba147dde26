# Defines what `cmake --install` installs, and where. The component Runtime has the program and its
# files, for people who distil. Development is for programs that use the library.
include(GNUInstallDirs)
include(CMakePackageConfigHelpers)

set(FIRSTDROP_DATADIR ${CMAKE_INSTALL_DATADIR}/firstdrop)
set(FIRSTDROP_CMAKEDIR ${CMAKE_INSTALL_LIBDIR}/cmake/firstdrop)
set(FIRSTDROP_PKGCONFIGDIR ${CMAKE_INSTALL_LIBDIR}/pkgconfig)
set(FIRSTDROP_DOCDIR ${CMAKE_INSTALL_DATAROOTDIR}/doc/firstdrop)

# A static library doesn't record its dependencies; a shared library does.
get_target_property(type firstdrop TYPE)
set(FIRSTDROP_IS_ARCHIVE OFF)
if(type STREQUAL "STATIC_LIBRARY")
  set(FIRSTDROP_IS_ARCHIVE ON)
endif()

# Installs files, and reports a missing one at configure time. install(FILES) alone would report it
# only during installation.
function(firstdrop_install_files destination)
  foreach(file IN LISTS ARGN)
    if(NOT EXISTS ${PROJECT_SOURCE_DIR}/${file})
      message(SEND_ERROR "${file} is to be installed, and is not there")
    endif()
    install(FILES ${PROJECT_SOURCE_DIR}/${file} DESTINATION ${destination} COMPONENT Runtime)
  endforeach()
endfunction()

# --- the program

if(TARGET firstdrop_cli)
  if(NOT FIRSTDROP_IS_ARCHIVE) # found from where the program lies, so that both may be moved
    file(RELATIVE_PATH from_program ${CMAKE_INSTALL_FULL_BINDIR} ${CMAKE_INSTALL_FULL_LIBDIR})
    set_target_properties(firstdrop_cli PROPERTIES INSTALL_RPATH "$ORIGIN/${from_program}")
  endif()
  install(TARGETS firstdrop_cli RUNTIME COMPONENT Runtime)
  install(DIRECTORY ${PROJECT_SOURCE_DIR}/data/ DESTINATION ${FIRSTDROP_DATADIR} COMPONENT Runtime
          FILES_MATCHING PATTERN "*.json" PATTERN evidence EXCLUDE)
  if(FIRSTDROP_CAN_GENERATE)
    install(FILES ${firstdrop_generated}/man/firstdrop.1 DESTINATION ${CMAKE_INSTALL_MANDIR}/man1
            COMPONENT Runtime)
    foreach(document IN ITEMS recipe still plant campaign plan)
      install(FILES ${firstdrop_generated}/man/firstdrop-${document}.5 COMPONENT Runtime
              DESTINATION ${CMAKE_INSTALL_MANDIR}/man5)
    endforeach()
    set(completions ${firstdrop_generated}/completions)
    install(FILES ${completions}/firstdrop.bash RENAME firstdrop COMPONENT Runtime
            DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions)
    install(FILES ${completions}/_firstdrop COMPONENT Runtime
            DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/site-functions)
    install(FILES ${completions}/firstdrop.fish COMPONENT Runtime
            DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d)
    install(DIRECTORY ${firstdrop_generated}/schemas DESTINATION ${FIRSTDROP_DATADIR}
            COMPONENT Runtime)
  endif()
  firstdrop_install_files(${FIRSTDROP_DOCDIR} README.md LICENSE)
  # quickstart works only in a clone. The examples of the library are in the Development component.
  install(DIRECTORY ${PROJECT_SOURCE_DIR}/examples DESTINATION ${FIRSTDROP_DOCDIR}
          COMPONENT Runtime
          PATTERN quickstart EXCLUDE PATTERN shard EXCLUDE PATTERN library EXCLUDE)
  install(PROGRAMS ${PROJECT_SOURCE_DIR}/examples/shard DESTINATION ${FIRSTDROP_DOCDIR}/examples
          COMPONENT Runtime)
endif()

# --- the library

# Until 1.0, programs must be rebuilt for each minor version.
set_target_properties(firstdrop PROPERTIES VERSION ${PROJECT_VERSION}
                      SOVERSION ${PROJECT_VERSION_MAJOR}.${PROJECT_VERSION_MINOR})
install(TARGETS firstdrop EXPORT firstdrop-targets
        LIBRARY COMPONENT Runtime NAMELINK_COMPONENT Development
        ARCHIVE COMPONENT Development
        INCLUDES DESTINATION ${CMAKE_INSTALL_INCLUDEDIR})
install(DIRECTORY ${PROJECT_SOURCE_DIR}/include/firstdrop DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}
        COMPONENT Development FILES_MATCHING PATTERN "*.hpp")
install(DIRECTORY ${PROJECT_SOURCE_DIR}/examples/library DESTINATION ${FIRSTDROP_DOCDIR}/examples
        COMPONENT Development)

install(EXPORT firstdrop-targets NAMESPACE firstdrop:: DESTINATION ${FIRSTDROP_CMAKEDIR}
        COMPONENT Development)
set(FIRSTDROP_MADE ${PROJECT_BINARY_DIR}/install)
configure_package_config_file(${CMAKE_CURRENT_LIST_DIR}/firstdrop-config.cmake.in
                              ${FIRSTDROP_MADE}/firstdrop-config.cmake
                              INSTALL_DESTINATION ${FIRSTDROP_CMAKEDIR}
                              NO_SET_AND_CHECK_MACRO)
write_basic_package_version_file(${FIRSTDROP_MADE}/firstdrop-config-version.cmake
                                 COMPATIBILITY SameMinorVersion)
install(FILES ${FIRSTDROP_MADE}/firstdrop-config.cmake
              ${FIRSTDROP_MADE}/firstdrop-config-version.cmake
        DESTINATION ${FIRSTDROP_CMAKEDIR} COMPONENT Development)

# For pkg-config. All paths are relative to the .pc file, so that the installed tree can be moved.
set(from ${CMAKE_INSTALL_FULL_LIBDIR}/pkgconfig)
set(prefix ${CMAKE_INSTALL_PREFIX})
cmake_path(RELATIVE_PATH prefix BASE_DIRECTORY ${from} OUTPUT_VARIABLE FIRSTDROP_UP)
foreach(dir IN ITEMS LIBDIR INCLUDEDIR)
  set(FIRSTDROP_PC_${dir} "\${prefix}")
  cmake_path(APPEND FIRSTDROP_PC_${dir} "${CMAKE_INSTALL_${dir}}")
endforeach()
set(FIRSTDROP_PC_REQUIRES "")
set(FIRSTDROP_PC_THREADS "")
if(FIRSTDROP_IS_ARCHIVE)
  set(FIRSTDROP_PC_REQUIRES "fmt")
  set(FIRSTDROP_PC_THREADS " -pthread")
endif()
configure_file(${CMAKE_CURRENT_LIST_DIR}/firstdrop.pc.in ${FIRSTDROP_MADE}/firstdrop.pc @ONLY)
install(FILES ${FIRSTDROP_MADE}/firstdrop.pc DESTINATION ${FIRSTDROP_PKGCONFIGDIR}
        COMPONENT Development)
