# gloam_module(name SOURCES … DEPENDS … LIBRARIES … [PUBLIC_LIBRARIES …])
# One engine folder = one static library. A module may depend only on modules that stand before it in the list
# below; anything else stops the configure step.
set(GLOAM_MODULE_ORDER base geo air astro tide sky trip weather outlook decide journal sheet)

# Target all_verify_interface_header_sets compiles each header on its own (./test builds it).
set(CMAKE_VERIFY_INTERFACE_HEADER_SETS ON)

function(gloam_module name)
    cmake_parse_arguments(ARG "" "" "SOURCES;DEPENDS;LIBRARIES;PUBLIC_LIBRARIES" ${ARGN})
    list(FIND GLOAM_MODULE_ORDER ${name} own_place)
    if(own_place EQUAL -1)
        message(FATAL_ERROR "module '${name}' is not in GLOAM_MODULE_ORDER (cmake/module.cmake)")
    endif()
    add_library(gloam_${name} STATIC ${ARG_SOURCES})
    # Headers are found, not listed: nothing but that check reads the set.
    file(GLOB_RECURSE headers *.hpp)
    target_sources(gloam_${name} PUBLIC FILE_SET HEADERS BASE_DIRS ${CMAKE_SOURCE_DIR}/src FILES ${headers})
    target_link_libraries(gloam_${name}
        PUBLIC tl::expected ${ARG_PUBLIC_LIBRARIES}
        PRIVATE gloam_flags fmt::fmt ${ARG_LIBRARIES})
    foreach(dependency IN LISTS ARG_DEPENDS)
        list(FIND GLOAM_MODULE_ORDER ${dependency} its_place)
        if(its_place EQUAL -1 OR NOT its_place LESS own_place)
            message(FATAL_ERROR "module '${name}' may not depend on '${dependency}': arrows point up the list only")
        endif()
        target_link_libraries(gloam_${name} PUBLIC gloam_${dependency})
    endforeach()
    set_property(GLOBAL PROPERTY gloam_depends_${name} "${ARG_DEPENDS}")
endfunction()
