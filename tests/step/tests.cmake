# Drafts of solids: the test makes them with the library that reads them.
foreach(library TKBO TKBool TKPrim)
  find_library(OCCT_${library} ${library})
endforeach()
add_executable(write_solids step/made_solids.cpp step/solids.cpp step/write_solids.cpp)
target_include_directories(write_solids SYSTEM PRIVATE ${OCCT_INCLUDES})
target_link_libraries(write_solids PRIVATE turnwright-route ${occt} ${OCCT_TKBO} ${OCCT_TKBool} ${OCCT_TKPrim})
turnwright_options(write_solids)
if(TURNWRIGHT_SANITIZE)
  target_compile_options(write_solids PRIVATE -fno-sanitize=undefined)
endif()
target_compile_options(write_solids PRIVATE -Wno-conversion)
python_test("drafts of made solids" step/draft_test.py Drafts Bounds.test_other_files_are_refused Bounds.test_time_is_bounded
            Bounds.test_the_program_starts_without_the_library)
python_test("drafts from solid models" step/draft_test.py)
# Long, by parts and damaged files without number.
set_tests_properties("drafts from solid models" PROPERTIES LABELS slow)
add_test(NAME "hundreds of parts as solids and back"
         COMMAND /usr/bin/python3 ${CMAKE_CURRENT_SOURCE_DIR}/step/draft_test.py RoundTrips)
set_tests_properties("hundreds of parts as solids and back" PROPERTIES LABELS slow TIMEOUT 1800 ENVIRONMENT
  "TURNWRIGHT=$<TARGET_FILE:turnwright-program>;ROOT=${PROJECT_SOURCE_DIR};BUILD=${PROJECT_BINARY_DIR};PYTHONDONTWRITEBYTECODE=1;PARTS=300")
