# The program, the library of every stage and a CMake package: find_package(fitup), then link fitup::plan and so on.
# A static library's user links what the library uses privately too: the package finds those.
include(CMakePackageConfigHelpers)

get_property(stages GLOBAL PROPERTY FITUP_STAGES)
install(TARGETS ${stages} fitup_headers EXPORT fitup-targets ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR}
        FILE_SET HEADERS DESTINATION ${CMAKE_INSTALL_INCLUDEDIR})
if(TARGET fitup)
  install(TARGETS fitup RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
endif()

set(package ${CMAKE_INSTALL_LIBDIR}/cmake/fitup)
install(EXPORT fitup-targets NAMESPACE fitup:: DESTINATION ${package})
configure_package_config_file(${CMAKE_CURRENT_LIST_DIR}/fitup-config.cmake.in ${PROJECT_BINARY_DIR}/fitup-config.cmake
                              INSTALL_DESTINATION ${package})
write_basic_package_version_file(${PROJECT_BINARY_DIR}/fitup-config-version.cmake COMPATIBILITY SameMinorVersion)
install(FILES ${PROJECT_BINARY_DIR}/fitup-config.cmake ${PROJECT_BINARY_DIR}/fitup-config-version.cmake
              ${CMAKE_CURRENT_LIST_DIR}/FitupKernel.cmake DESTINATION ${package})
