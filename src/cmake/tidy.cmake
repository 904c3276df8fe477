# cmake -C src/cmake/tidy.cmake -S . -B build/tidy -G Ninja
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(FITUP_TESTS OFF CACHE BOOL "")
set(CMAKE_CXX_CLANG_TIDY clang-tidy CACHE STRING "")
