# Third-party libraries, all from Debian 12. Imported targets are SYSTEM: their headers raise no warnings of ours.
find_package(tl-expected REQUIRED)
find_package(fmt REQUIRED)
find_package(date REQUIRED)
find_package(nlohmann_json REQUIRED)
find_package(CLI11 REQUIRED)
find_package(GTest REQUIRED)
find_package(benchmark REQUIRED)
find_package(Threads REQUIRED)
find_package(PkgConfig REQUIRED)
pkg_check_modules(erfa REQUIRED IMPORTED_TARGET erfa)
pkg_check_modules(geographiclib REQUIRED IMPORTED_TARGET geographiclib)
pkg_check_modules(tomlplusplus REQUIRED IMPORTED_TARGET tomlplusplus)
pkg_check_modules(pangocairo REQUIRED IMPORTED_TARGET pangocairo)

# ecCodes' own CMake package insists on its command-line tools, which bring NetCDF along; the library is all we use.
find_library(eccodes_library eccodes REQUIRED)
add_library(eccodes UNKNOWN IMPORTED)
set_target_properties(eccodes PROPERTIES IMPORTED_LOCATION ${eccodes_library})
