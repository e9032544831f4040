# gloam_test(name SOURCES … LIBRARIES … [LABELS …]): one GoogleTest program, each test a CTest entry.
function(gloam_test name)
    cmake_parse_arguments(ARG "" "" "SOURCES;LIBRARIES;LABELS" ${ARGN})
    add_executable(test_${name} ${ARG_SOURCES})
    target_include_directories(test_${name} PRIVATE ${CMAKE_SOURCE_DIR}/tests)
    target_compile_definitions(test_${name} PRIVATE GLOAM_SOURCE_DIR="${CMAKE_SOURCE_DIR}")
    target_link_libraries(test_${name} PRIVATE gloam_flags fmt::fmt GTest::gmock_main ${ARG_LIBRARIES})
    gtest_discover_tests(test_${name} DISCOVERY_MODE PRE_TEST DISCOVERY_TIMEOUT 60
        TEST_PREFIX "${name}." PROPERTIES LABELS "${ARG_LABELS}" TIMEOUT 600)
endfunction()
include(GoogleTest)
