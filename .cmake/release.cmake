# cmake -S . -B build/release -G Ninja -C .cmake/release.cmake
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
set(LOOMLEAF_WERROR ON CACHE BOOL "")
