# cpack runs this after it has staged the files of each package and before it packs them. Debian's
# policy requires compressed man pages and changelogs (12.1, 12.7) and a copyright file in each
# package (12.5). It wants no separate licence file, and static libraries without debug symbols.
set(root ${CPACK_TEMPORARY_INSTALL_DIRECTORY})
set(package_Runtime ${CPACK_DEBIAN_RUNTIME_PACKAGE_NAME})
set(package_Development ${CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME})

function(run)
  execute_process(COMMAND ${ARGN} COMMAND_ERROR_IS_FATAL ANY)
endfunction()

foreach(component IN LISTS CPACK_COMPONENTS_ALL)
  set(usr ${root}/${component}${CPACK_PACKAGING_INSTALL_PREFIX})
  set(doc ${usr}/${CPACK_FIRSTDROP_DOCDIR}/${package_${component}})

  file(GLOB pages ${usr}/${CPACK_FIRSTDROP_MANDIR}/man*/*)
  file(REMOVE ${doc}/LICENSE)
  file(COPY ${CPACK_FIRSTDROP_SOURCE_DIR}/src/package/changelog DESTINATION ${doc})
  foreach(file IN LISTS pages ITEMS ${doc}/changelog)
    run(gzip --best --no-name ${file})
  endforeach()

  file(READ ${CPACK_FIRSTDROP_SOURCE_DIR}/LICENSE licence)
  string(REGEX MATCH "Copyright \\(c\\) ([^\n]*)" line "${licence}")
  set(holder ${CMAKE_MATCH_1})
  # The format requires each line to be indented by a space, and an empty line to be a dot.
  string(REGEX REPLACE "\n+$" "" licence "${licence}")
  string(REGEX REPLACE "\n\n" "\n.\n" licence "${licence}")
  string(REPLACE "\n" "\n " licence "${licence}")
  file(WRITE ${doc}/copyright
       "Format: https://www.debian.org/doc/packaging-manuals/copyright-format/1.0/\n"
       "Upstream-Name: firstdrop\n\n"
       "Files: *\nCopyright: ${holder}\nLicense: Expat\n ${licence}\n")

  file(GLOB archives ${usr}/${CPACK_FIRSTDROP_LIBDIR}/*.a)
  foreach(archive IN LISTS archives)
    run(${CPACK_FIRSTDROP_STRIP} --strip-debug --remove-section=.comment --remove-section=.note
        --enable-deterministic-archives ${archive})
  endforeach()
endforeach()
