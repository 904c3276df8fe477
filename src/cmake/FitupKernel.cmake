# The solid kernel as one INTERFACE target, linked privately by src/solid alone (and by the tests' judges).
# Its package exports a library path that no package installs (libtbb.so): only the TK libraries are kept.
# "Visualization" must be listed or the call fails, though nothing is drawn. The version file wants an exact
# match, so none is asked for.
# It also adds its compile definitions to the whole directory: they are put back where they belong.
get_directory_property(definitions_before COMPILE_DEFINITIONS)
find_package(OpenCASCADE REQUIRED COMPONENTS FoundationClasses ModelingData ModelingAlgorithms Visualization
                                             ApplicationFramework DataExchange)
get_directory_property(kernel_definitions COMPILE_DEFINITIONS)
set_directory_properties(PROPERTIES COMPILE_DEFINITIONS "${definitions_before}")
add_library(fitup_kernel INTERFACE)
target_compile_definitions(fitup_kernel INTERFACE ${kernel_definitions})
target_include_directories(fitup_kernel SYSTEM INTERFACE ${OpenCASCADE_INCLUDE_DIR})
foreach(lib IN ITEMS TKernel TKMath TKBRep TKGeomBase TKGeomAlgo TKG3d TKG2d TKShHealing TKTopAlgo TKPrim TKBO TKBool
                     TKHLR TKMesh TKFillet TKOffset TKXSBase TKSTEPBase TKSTEPAttr TKSTEP209 TKSTEP TKLCAF TKCAF TKCDF
                     TKXCAF TKXDESTEP TKV3d TKService TKVCAF)
  if(TARGET ${lib})
    get_target_property(links ${lib} INTERFACE_LINK_LIBRARIES)
    if(links)
      list(FILTER links INCLUDE REGEX "^TK")
      set_target_properties(${lib} PROPERTIES INTERFACE_LINK_LIBRARIES "${links}")
    endif()
  endif()
endforeach()
target_link_libraries(fitup_kernel INTERFACE TKXDESTEP TKSTEP TKXSBase TKXCAF TKLCAF TKCAF TKHLR TKMesh TKBO TKPrim
                      TKTopAlgo TKShHealing TKGeomAlgo TKBRep TKG3d TKG2d TKMath TKernel)
