# cmake -S . -B build/debug -G Ninja -C .cmake/debug.cmake
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(LOOMLEAF_WERROR ON CACHE BOOL "")
