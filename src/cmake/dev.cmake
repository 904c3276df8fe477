# cmake -C src/cmake/dev.cmake -S . -B build/dev -G Ninja
set(CMAKE_BUILD_TYPE RelWithDebInfo CACHE STRING "")
set(CMAKE_CXX_FLAGS_RELWITHDEBINFO "-O1 -g1" CACHE STRING "")
set(FITUP_WERROR ON CACHE BOOL "")
