# The package: find_package(turnwright) and link turnwright::turnwright.
include(CMakePackageConfigHelpers)
set(package ${CMAKE_INSTALL_LIBDIR}/cmake/turnwright)
set(TURNWRIGHT_MODULES xlsxwriter minizip)
if(CLP_FOUND)
  list(APPEND TURNWRIGHT_MODULES clp)
endif()

install(TARGETS turnwright-library ${TURNWRIGHT_ROOMS} EXPORT turnwright-targets
        ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR} COMPONENT development
        FILE_SET HEADERS DESTINATION ${CMAKE_INSTALL_INCLUDEDIR} COMPONENT development)
install(EXPORT turnwright-targets NAMESPACE turnwright:: DESTINATION ${package}
        COMPONENT development)
configure_package_config_file(${PROJECT_SOURCE_DIR}/src/cmake/turnwright-config.cmake.in
                              ${PROJECT_BINARY_DIR}/turnwright-config.cmake
                              INSTALL_DESTINATION ${package})
# Before version 1 every minor version may change what callers see.
write_basic_package_version_file(${PROJECT_BINARY_DIR}/turnwright-config-version.cmake
                                 COMPATIBILITY SameMinorVersion)
install(FILES ${PROJECT_BINARY_DIR}/turnwright-config.cmake
              ${PROJECT_BINARY_DIR}/turnwright-config-version.cmake
              ${PROJECT_SOURCE_DIR}/src/cmake/Findlibcsv.cmake
        DESTINATION ${package} COMPONENT development)

# What a package needs beside: the licence as copyright, what changed, both for each package.
configure_file(${PROJECT_SOURCE_DIR}/src/cmake/changelog.in ${PROJECT_BINARY_DIR}/changelog @ONLY)
find_program(GZIP gzip REQUIRED)
add_custom_command(OUTPUT ${PROJECT_BINARY_DIR}/changelog.gz
  COMMAND ${GZIP} -9nkf ${PROJECT_BINARY_DIR}/changelog
  DEPENDS ${PROJECT_BINARY_DIR}/changelog VERBATIM)
set(manual ${PROJECT_BINARY_DIR}/changelog.gz)
set(doc ${CMAKE_INSTALL_DATAROOTDIR}/doc)
install(FILES ${PROJECT_SOURCE_DIR}/LICENSE DESTINATION ${doc}/turnwright-dev RENAME copyright
        COMPONENT development)
install(FILES ${PROJECT_BINARY_DIR}/changelog.gz DESTINATION ${doc}/turnwright-dev
        COMPONENT development)
# A plug-in, where it is built, as a component and a package of its own; its description is a summary,
# then lines of a paragraph.
function(install_plugin target component depends description)
  if(NOT TARGET ${target})
    return()
  endif()
  install(TARGETS ${target} LIBRARY DESTINATION ${CMAKE_INSTALL_LIBDIR}/turnwright
          COMPONENT ${component})
  install(FILES ${PROJECT_SOURCE_DIR}/LICENSE DESTINATION ${doc}/turnwright-${component}
          RENAME copyright COMPONENT ${component})
  install(FILES ${PROJECT_BINARY_DIR}/changelog.gz DESTINATION ${doc}/turnwright-${component}
          COMPONENT ${component})
  string(TOUPPER ${component} upper)
  set(CPACK_DEBIAN_${upper}_PACKAGE_NAME turnwright-${component} PARENT_SCOPE)
  set(CPACK_DEBIAN_${upper}_PACKAGE_SECTION science PARENT_SCOPE)
  set(CPACK_DEBIAN_${upper}_PACKAGE_SHLIBDEPS ON PARENT_SCOPE)
  set(CPACK_DEBIAN_${upper}_PACKAGE_DEPENDS "${depends}" PARENT_SCOPE)
  set(CPACK_DEBIAN_${upper}_DESCRIPTION "${description}" PARENT_SCOPE)
  set(plugin_components ${plugin_components} ${component} PARENT_SCOPE)
endfunction()

if(TURNWRIGHT_PROGRAM)
  install(TARGETS turnwright-program RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR} COMPONENT program)
  # Each of its own, for the libraries that it needs.
  install_plugin(turnwright-step models "turnwright (= ${PROJECT_VERSION})"
    "models of parts for Turnwright
 The plug-in by which Turnwright drafts part files from models in STEP.")
  install_plugin(turnwright-pdf paper "turnwright (= ${PROJECT_VERSION}), fonts-liberation"
    "PDF for Turnwright
 The plug-in by which Turnwright draws quotations, step sheets, speed cards and
 work lists as PDF.")
  # The manual page and the completions are what the program itself says of its options.
  foreach(what IN ITEMS man bash zsh fish)
    add_custom_command(OUTPUT ${PROJECT_BINARY_DIR}/manual/${what}
      COMMAND ${CMAKE_COMMAND} -E make_directory ${PROJECT_BINARY_DIR}/manual
      COMMAND turnwright-program help ${what} > ${PROJECT_BINARY_DIR}/manual/${what}
      DEPENDS turnwright-program VERBATIM)
    list(APPEND manual ${PROJECT_BINARY_DIR}/manual/${what})
  endforeach()
  add_custom_command(OUTPUT ${PROJECT_BINARY_DIR}/manual/man.gz
    COMMAND ${GZIP} -9nkf ${PROJECT_BINARY_DIR}/manual/man
    DEPENDS ${PROJECT_BINARY_DIR}/manual/man VERBATIM)
  list(APPEND manual ${PROJECT_BINARY_DIR}/manual/man.gz)
  set(share ${CMAKE_INSTALL_DATAROOTDIR})
  install(FILES ${PROJECT_BINARY_DIR}/manual/man.gz DESTINATION ${CMAKE_INSTALL_MANDIR}/man1
          RENAME turnwright.1.gz COMPONENT program)
  install(FILES ${PROJECT_BINARY_DIR}/manual/bash RENAME turnwright
          DESTINATION ${share}/bash-completion/completions COMPONENT program)
  install(FILES ${PROJECT_BINARY_DIR}/manual/zsh RENAME _turnwright
          DESTINATION ${share}/zsh/vendor-completions COMPONENT program)
  install(FILES ${PROJECT_BINARY_DIR}/manual/fish RENAME turnwright.fish
          DESTINATION ${share}/fish/vendor_completions.d COMPONENT program)
  install(FILES ${PROJECT_SOURCE_DIR}/README.md ${PROJECT_BINARY_DIR}/changelog.gz
          DESTINATION ${doc}/turnwright COMPONENT program)
  # What its links lead to, where they look for it.
  install(DIRECTORY ${PROJECT_SOURCE_DIR}/templates/docs DESTINATION ${doc}/turnwright/templates
          COMPONENT program)
  install(FILES ${PROJECT_SOURCE_DIR}/DEVELOPERS.md DESTINATION ${doc}/turnwright COMPONENT program)
  install(FILES ${PROJECT_SOURCE_DIR}/LICENSE DESTINATION ${doc}/turnwright RENAME copyright
          COMPONENT program)
  # For reading: the program has them built in.
  install(DIRECTORY ${PROJECT_SOURCE_DIR}/rates ${PROJECT_SOURCE_DIR}/samples
          DESTINATION ${share}/turnwright COMPONENT program
          PATTERN "*.sh" PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE
                                     WORLD_READ WORLD_EXECUTE)
endif()
add_custom_target(turnwright-manual ALL DEPENDS ${manual})

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_CONTACT "Turnwright <maintainers@turnwright.example>")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ
    GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_COMPONENTS_ALL program development ${plugin_components})
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME turnwright)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME turnwright-dev)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS
    "libyaml-cpp-dev, libcsv-dev, libpugixml-dev, libxlsxwriter-dev, libminizip-dev, libfmt-dev")
set(CPACK_COMPONENT_PROGRAM_DESCRIPTION "times, prices and compares turned parts
 Tells a machine shop how long a turned part takes, what to charge, which
 method is cheapest, and whether there are hours; writes quotations, step
 sheets and workbooks with live formulas.")
set(CPACK_COMPONENT_DEVELOPMENT_DESCRIPTION "library of Turnwright
 Static libraries and headers for programs that plan, time and price turned
 parts.")
set(CPACK_DEBIAN_PROGRAM_DESCRIPTION "${CPACK_COMPONENT_PROGRAM_DESCRIPTION}")
set(CPACK_DEBIAN_DEVELOPMENT_DESCRIPTION "${CPACK_COMPONENT_DEVELOPMENT_DESCRIPTION}")
include(CPack)
