# cmake -C src/cmake/asan.cmake -S . -B build/asan -G Ninja
set(CMAKE_BUILD_TYPE RelWithDebInfo CACHE STRING "")
set(CMAKE_CXX_FLAGS_RELWITHDEBINFO "-O1 -g1" CACHE STRING "")
set(FITUP_SANITIZE ON CACHE BOOL "")
