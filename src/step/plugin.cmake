# The plug-in that reads solid models, where the library for it is installed. The program loads it
# only for `draft`, so neither its start nor its dependencies change.
option(TURNWRIGHT_STEP "Build the plug-in that reads STEP models, where OpenCASCADE is installed" ON)
if(NOT TURNWRIGHT_STEP)
  return()
endif()
find_path(OCCT_INCLUDES STEPControl_Reader.hxx PATH_SUFFIXES opencascade)
set(occt_found ${OCCT_INCLUDES})
foreach(library TKSTEP TKSTEPBase TKSTEPAttr TKXSBase TKShHealing TKTopAlgo TKGeomAlgo TKBRep TKGeomBase TKG3d TKG2d
        TKMath TKernel)
  find_library(OCCT_${library} ${library})
  list(APPEND occt ${OCCT_${library}})
  if(NOT OCCT_${library})
    set(occt_found FALSE)
  endif()
endforeach()
if(NOT occt_found)
  message(STATUS "No plug-in for STEP models: install libocct-data-exchange-dev")
  return()
endif()
add_plugin(turnwright-step
  step/axis.cpp
  step/classify.cpp
  step/envelope.cpp
  step/face_group.cpp
  step/feature.cpp
  step/free_form.cpp
  step/group_faces.cpp
  step/outline.cpp
  step/piece.cpp
  step/plugin.cpp
  step/read_model.cpp
  step/recognise.cpp
  step/surface_frame.cpp)
target_include_directories(turnwright-step SYSTEM PRIVATE ${OCCT_INCLUDES})
target_link_libraries(turnwright-step PRIVATE ${occt} nlohmann_json::nlohmann_json)
# What the tests link to make solids.
set(occt ${occt} PARENT_SCOPE)
# Headers of the library are not clean of what the undefined-behaviour sanitizer asks for.
if(TURNWRIGHT_SANITIZE)
  target_compile_options(turnwright-step PRIVATE -fno-sanitize=undefined)
endif()
