# Address and undefined-behaviour sanitizers, and the standard library's own assertions:
#   cmake -S . -B build/asan -G Ninja -C .cmake/asan.cmake && cmake --build build/asan
#   LSAN_OPTIONS=suppressions=tests/lsan.supp ctest --test-dir build/asan
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_CXX_FLAGS "-O1 -fsanitize=address,undefined -fno-sanitize-recover=undefined -fno-omit-frame-pointer -D_GLIBCXX_ASSERTIONS" CACHE STRING "")
