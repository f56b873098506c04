# The plug-in that draws PDF and pictures, where the libraries for it are installed. The program
# loads it only for `--output x.pdf` and for the drawing in a quote's workbook, so neither its start
# nor its dependencies change.
option(TURNWRIGHT_PDF "Build the plug-in that draws PDF, where cairo and pango are installed" ON)
if(NOT TURNWRIGHT_PDF)
  return()
endif()
pkg_check_modules(PANGO IMPORTED_TARGET cairo-pdf pangocairo fontconfig libpng)
if(NOT PANGO_FOUND)
  message(STATUS "No plug-in for PDF: install libpango1.0-dev")
  return()
endif()
add_plugin(turnwright-pdf
  pdf/boxes.cpp
  pdf/drawing.cpp
  pdf/pages.cpp
  pdf/picture.cpp
  pdf/plugin.cpp
  pdf/tables.cpp
  pdf/type.cpp
  pdf/write_language.cpp)
target_include_directories(turnwright-pdf PRIVATE ${CMAKE_CURRENT_SOURCE_DIR}/pdf)
target_link_libraries(turnwright-pdf PRIVATE PkgConfig::PANGO)
