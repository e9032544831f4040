include(GoogleTest)

# gloam_test(name SOURCES … LIBRARIES … [LABELS label]): one GoogleTest program, each test a CTest entry.
# Test discovery takes no list as a property, so a program bears one label at most.
function(gloam_test name)
    cmake_parse_arguments(ARG "" "" "SOURCES;LIBRARIES;LABELS" ${ARGN})
    list(LENGTH ARG_LABELS label_count)
    if(label_count GREATER 1)
        message(FATAL_ERROR "test '${name}' may bear one label, not ${label_count}")
    endif()
    add_executable(test_${name} ${ARG_SOURCES})
    target_include_directories(test_${name} PRIVATE ${CMAKE_SOURCE_DIR}/tests)
    target_compile_definitions(test_${name} PRIVATE GLOAM_SOURCE_DIR="${CMAKE_SOURCE_DIR}")
    target_link_libraries(test_${name} PRIVATE gloam_flags fmt::fmt GTest::gmock_main ${ARG_LIBRARIES})
    set(properties TIMEOUT 600)
    if(ARG_LABELS)
        list(APPEND properties LABELS ${ARG_LABELS})
    endif()
    # Parameters keep the names that the test gives them: printed values may hold addresses, new ones on every run.
    gtest_discover_tests(test_${name} DISCOVERY_MODE PRE_TEST DISCOVERY_TIMEOUT 60 NO_PRETTY_VALUES
        TEST_PREFIX "${name}." PROPERTIES ${properties})
endfunction()
