# cmake -S . -B build/tidy -G Ninja -C .cmake/tidy.cmake
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_CXX_COMPILER clang++-14 CACHE STRING "")
set(CMAKE_CXX_CLANG_TIDY clang-tidy-14 CACHE STRING "")
