# cmake -DROOT=<source dir> -P public_headers.cmake
# A public header includes only the standard library and other public headers, so that whoever
# compiles against them needs no library of ours.
cmake_minimum_required(VERSION 3.24)
file(GLOB_RECURSE files ${ROOT}/include/*.hpp)
foreach(file IN LISTS files)
  file(STRINGS ${file} lines REGEX "^ *# *include")
  foreach(line IN LISTS lines)
    if(NOT line MATCHES "^#include (<[a-z_]+>|\"turnwright/[a-z]+/[a-z_]+[.]hpp\")$")
      string(APPEND bad "${file}: ${line}\n")
    endif()
  endforeach()
endforeach()
if(bad)
  message(FATAL_ERROR "neither the standard library nor a public header:\n${bad}")
endif()
