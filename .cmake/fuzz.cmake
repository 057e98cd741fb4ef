# libFuzzer targets, with clang:
#   cmake -S . -B build/fuzz -G Ninja -C .cmake/fuzz.cmake && cmake --build build/fuzz --target fuzz_language
set(CMAKE_BUILD_TYPE RelWithDebInfo CACHE STRING "")
set(CMAKE_CXX_COMPILER clang++-14 CACHE STRING "")
set(LOOMLEAF_FUZZ ON CACHE BOOL "")
set(CMAKE_CXX_FLAGS "-fsanitize=fuzzer-no-link,address,undefined" CACHE STRING "")
