include(GoogleTest)

# gloam_test(name SOURCES … LIBRARIES … [LABELS label] [WHOLE]): one GoogleTest program, each test a CTest entry; with
# WHOLE a single entry, for tests that share what is dear to compute.
# Test discovery takes no list as a property, so a program bears one label at most.
function(gloam_test name)
    cmake_parse_arguments(ARG "WHOLE" "" "SOURCES;LIBRARIES;LABELS" ${ARGN})
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
    if(ARG_WHOLE)
        add_test(NAME ${name} COMMAND test_${name} --gtest_brief)
        set_tests_properties(${name} PROPERTIES ${properties})
        return()
    endif()
    # Parameters keep the names that the test gives them: printed values may hold addresses, new ones on every run.
    gtest_discover_tests(test_${name} DISCOVERY_MODE PRE_TEST DISCOVERY_TIMEOUT 60 NO_PRETTY_VALUES
        TEST_PREFIX "${name}." PROPERTIES ${properties})
endfunction()
