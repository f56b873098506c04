# The package: find_package(turnwright) and link turnwright::turnwright.
include(CMakePackageConfigHelpers)
set(package ${CMAKE_INSTALL_LIBDIR}/cmake/turnwright)
set(TURNWRIGHT_MODULES xlsxwriter minizip)
if(CLP_FOUND)
  list(APPEND TURNWRIGHT_MODULES clp)
endif()

install(TARGETS turnwright-library ${TURNWRIGHT_ROOMS} EXPORT turnwright-targets
        ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR}
        FILE_SET HEADERS DESTINATION ${CMAKE_INSTALL_INCLUDEDIR})
install(EXPORT turnwright-targets NAMESPACE turnwright:: DESTINATION ${package})
configure_package_config_file(${PROJECT_SOURCE_DIR}/src/cmake/turnwright-config.cmake.in
                              ${PROJECT_BINARY_DIR}/turnwright-config.cmake
                              INSTALL_DESTINATION ${package})
# Before version 1 every minor version may change what callers see.
write_basic_package_version_file(${PROJECT_BINARY_DIR}/turnwright-config-version.cmake
                                 COMPATIBILITY SameMinorVersion)
install(FILES ${PROJECT_BINARY_DIR}/turnwright-config.cmake
              ${PROJECT_BINARY_DIR}/turnwright-config-version.cmake
              ${PROJECT_SOURCE_DIR}/src/cmake/Findlibcsv.cmake
        DESTINATION ${package})
install(FILES ${PROJECT_SOURCE_DIR}/LICENSE DESTINATION ${CMAKE_INSTALL_DOCDIR})
if(TURNWRIGHT_PROGRAM)
  install(TARGETS turnwright-program RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
  if(TARGET turnwright-step)
    install(TARGETS turnwright-step LIBRARY DESTINATION ${CMAKE_INSTALL_LIBDIR}/turnwright)
  endif()
endif()
