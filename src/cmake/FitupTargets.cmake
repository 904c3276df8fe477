# One function per kind of target, so that a folder's CMakeLists.txt says only its files and what it may use.
include(FitupHeaders)

add_library(fitup_options INTERFACE)
target_compile_features(fitup_options INTERFACE cxx_std_20)
target_compile_options(fitup_options INTERFACE -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wno-sign-conversion
                                               -Wnon-virtual-dtor -Woverloaded-virtual)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU" AND CMAKE_BUILD_TYPE STREQUAL "Release")
  # At -O2 g++ 12 takes string::insert and replace for copies onto themselves (its bug 105651).
  target_compile_options(fitup_options INTERFACE -Wno-restrict)
endif()
if(FITUP_WERROR)
  target_compile_options(fitup_options INTERFACE -Werror)
endif()
if(FITUP_SANITIZE)
  target_compile_options(fitup_options INTERFACE -fsanitize=address,undefined -fno-omit-frame-pointer -fno-sanitize-recover=undefined)
  target_link_options(fitup_options INTERFACE -fsanitize=address,undefined)
endif()

# fitup_stage(plan SOURCES a.cpp b.cpp USES geometry tables PRIVATE_USES fmt::fmt)
# A static library fitup_<name>, alias fitup::<name>. USES names other stages.
function(fitup_stage name)
  cmake_parse_arguments(S "" "" "SOURCES;USES;PRIVATE_USES" ${ARGN})
  add_library(fitup_${name} STATIC ${S_SOURCES})
  add_library(fitup::${name} ALIAS fitup_${name})
  target_include_directories(fitup_${name} PRIVATE ${PROJECT_SOURCE_DIR}/src)
  list(TRANSFORM S_USES PREPEND fitup::)
  target_link_libraries(fitup_${name} PUBLIC fitup::headers ${S_USES} PRIVATE $<BUILD_INTERFACE:fitup_options> ${S_PRIVATE_USES})
  set_target_properties(fitup_${name} PROPERTIES EXPORT_NAME ${name})
  set_property(GLOBAL APPEND PROPERTY FITUP_STAGES fitup_${name})
endfunction()

# fitup_test(plan SOURCES end_cut_test.cpp USES plan solid): an executable test_<name>, its cases found by CTest.
# Tests see src/ (private headers), tests/ and the folders of fixtures and examples as macros.
function(fitup_test name)
  cmake_parse_arguments(T "" "" "SOURCES;USES;PRIVATE_USES" ${ARGN})
  add_executable(test_${name} ${T_SOURCES})
  list(TRANSFORM T_USES PREPEND fitup::)
  target_include_directories(test_${name} PRIVATE ${PROJECT_SOURCE_DIR}/src ${PROJECT_SOURCE_DIR}/tests)
  target_link_libraries(test_${name} PRIVATE ${T_USES} ${T_PRIVATE_USES} fitup_options GTest::gtest_main GTest::gmock)
  target_compile_definitions(test_${name} PRIVATE FITUP_FIXTURES="${PROJECT_SOURCE_DIR}/fixtures"
    FITUP_EXAMPLES="${PROJECT_SOURCE_DIR}/examples" FITUP_TESTS="${PROJECT_SOURCE_DIR}/tests"
    FITUP_SOURCE="${PROJECT_SOURCE_DIR}")
  gtest_discover_tests(test_${name} DISCOVERY_TIMEOUT 60 PROPERTIES LABELS ${name})
endfunction()
