# Debian packages, made by `cpack` in the build folder. firstdrop has the program; libfirstdrop-dev
# is for programs that use the library. The program is linked statically with the library, so
# neither package needs the other. A shared library would need a third package, named by its
# version, so no packages are made from a shared build.
if(BUILD_SHARED_LIBS)
  return()
endif()

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_PACKAGE_VENDOR "firstdrop developers")
set(CPACK_PACKAGE_CONTACT "firstdrop developers <developers@firstdrop.invalid>") # nobody's
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "batch planner for small-scale steam distillation")
set(CPACK_PACKAGE_CHECKSUM SHA256)
set(CPACK_STRIP_FILES ON)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS # whatever the umask
    OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)

set(CPACK_COMPONENTS_ALL Runtime Development)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)

set(CPACK_DEBIAN_RUNTIME_PACKAGE_NAME firstdrop)
set(CPACK_DEBIAN_RUNTIME_PACKAGE_SECTION science)
set(CPACK_DEBIAN_RUNTIME_PACKAGE_SHLIBDEPS ON)
set(CPACK_COMPONENT_RUNTIME_DESCRIPTION
    "From a short recipe (plant, still, what you want) firstdrop works out how
much herb fits and how much water to pour in, when the first drop comes,
how much hydrosol and oil to expect, how much ice to have ready, when to
stop, and how far the pot then is from boiling dry.
.
Every figure has a source or says that it has none, every answer has a
range, and a plan that could run its pot dry is refused.")

set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME libfirstdrop-dev)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SECTION libdevel)
# The static library calls functions of fmt whose symbols contain fmt's major version.
math(EXPR next_fmt "${fmt_VERSION_MAJOR} + 1")
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS
    "libfmt-dev (>= ${fmt_VERSION_MAJOR}), libfmt-dev (<< ${next_fmt})")
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SUGGESTS firstdrop)
set(CPACK_COMPONENT_DEVELOPMENT_DESCRIPTION
    "The planner behind the program firstdrop as a C++20 library: recipes in,
plans out. This package has its headers, the static library, and what CMake
and pkg-config need to find them.")

# Stops packaging if the tools that determine a package's dependencies are missing.
set(CPACK_PROJECT_CONFIG_FILE ${CMAKE_CURRENT_LIST_DIR}/debian_tools.cmake)

# Changes the installed files where Debian's rules differ from `cmake --install`.
set(CPACK_PRE_BUILD_SCRIPTS ${CMAKE_CURRENT_LIST_DIR}/debian_files.cmake)
set(CPACK_FIRSTDROP_SOURCE_DIR ${PROJECT_SOURCE_DIR})
set(CPACK_FIRSTDROP_DOCDIR ${CMAKE_INSTALL_DATAROOTDIR}/doc)
set(CPACK_FIRSTDROP_MANDIR ${CMAKE_INSTALL_MANDIR})
set(CPACK_FIRSTDROP_LIBDIR ${CMAKE_INSTALL_LIBDIR})
set(CPACK_FIRSTDROP_STRIP ${CMAKE_STRIP})

include(CPack)
