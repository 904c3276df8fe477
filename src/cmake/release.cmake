# cmake -C src/cmake/release.cmake -S . -B build/release -G Ninja
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
set(CMAKE_CXX_FLAGS_RELEASE "-O2" CACHE STRING "")
set(FITUP_TESTS OFF CACHE BOOL "")
