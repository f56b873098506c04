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
if(TURNWRIGHT_PROGRAM)
  install(TARGETS turnwright-program RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR} COMPONENT program)
  if(TARGET turnwright-step)
    # Of its own, for the weight of what it needs.
    install(TARGETS turnwright-step LIBRARY DESTINATION ${CMAKE_INSTALL_LIBDIR}/turnwright
            COMPONENT models)
    install(FILES ${PROJECT_SOURCE_DIR}/LICENSE DESTINATION ${doc}/turnwright-models
            RENAME copyright COMPONENT models)
    install(FILES ${PROJECT_BINARY_DIR}/changelog.gz DESTINATION ${doc}/turnwright-models
            COMPONENT models)
  endif()
  if(TARGET turnwright-pdf)
    # Of its own, for the graphics libraries that it needs.
    install(TARGETS turnwright-pdf LIBRARY DESTINATION ${CMAKE_INSTALL_LIBDIR}/turnwright
            COMPONENT paper)
    install(FILES ${PROJECT_SOURCE_DIR}/LICENSE DESTINATION ${doc}/turnwright-paper
            RENAME copyright COMPONENT paper)
    install(FILES ${PROJECT_BINARY_DIR}/changelog.gz DESTINATION ${doc}/turnwright-paper
            COMPONENT paper)
  endif()
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
set(CPACK_COMPONENTS_ALL program development)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME turnwright)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME turnwright-dev)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS
    "libyaml-cpp-dev, libcsv-dev, libpugixml-dev, libxlsxwriter-dev, libminizip-dev, libfmt-dev")
if(TARGET turnwright-step)
  list(APPEND CPACK_COMPONENTS_ALL models)
  set(CPACK_DEBIAN_MODELS_PACKAGE_NAME turnwright-models)
  set(CPACK_DEBIAN_MODELS_PACKAGE_SECTION science)
  set(CPACK_DEBIAN_MODELS_PACKAGE_SHLIBDEPS ON)
  set(CPACK_DEBIAN_MODELS_PACKAGE_DEPENDS "turnwright (= ${PROJECT_VERSION})")
  set(CPACK_DEBIAN_MODELS_DESCRIPTION "models of parts for Turnwright
 The plug-in by which Turnwright drafts part files from models in STEP.")
endif()
if(TARGET turnwright-pdf)
  list(APPEND CPACK_COMPONENTS_ALL paper)
  set(CPACK_DEBIAN_PAPER_PACKAGE_NAME turnwright-paper)
  set(CPACK_DEBIAN_PAPER_PACKAGE_SECTION science)
  set(CPACK_DEBIAN_PAPER_PACKAGE_SHLIBDEPS ON)
  set(CPACK_DEBIAN_PAPER_PACKAGE_DEPENDS "turnwright (= ${PROJECT_VERSION}), fonts-liberation")
  set(CPACK_DEBIAN_PAPER_DESCRIPTION "PDF for Turnwright
 The plug-in by which Turnwright draws quotations, step sheets, speed cards and
 work lists as PDF.")
endif()
# A summary, then lines of a paragraph.
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
