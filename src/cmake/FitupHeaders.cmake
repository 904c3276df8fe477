# The public headers as one target, so that a header set can be installed and each header is compiled alone.
# Building fitup_headers_verify_interface_header_sets (part of the tests) proves that each is self-contained.
add_library(fitup_headers INTERFACE)
add_library(fitup::headers ALIAS fitup_headers)
target_compile_features(fitup_headers INTERFACE cxx_std_20)
set(FITUP_PUBLIC_HEADERS
  bench calculation cut_rules diagnostic drills findings formats geometry inspect job layout lighten load_rules loads making model paper part pattern plan prices
  quantity remedies result seal_materials seams sequence sheet_fit space spec spec_boxes spec_items tables tolerances weight welded_sizes)
list(TRANSFORM FITUP_PUBLIC_HEADERS PREPEND ${PROJECT_SOURCE_DIR}/include/fitup/)
list(TRANSFORM FITUP_PUBLIC_HEADERS APPEND .h)
target_sources(fitup_headers INTERFACE FILE_SET HEADERS BASE_DIRS ${PROJECT_SOURCE_DIR}/include
                                       FILES ${FITUP_PUBLIC_HEADERS})
set_target_properties(fitup_headers PROPERTIES EXPORT_NAME headers VERIFY_INTERFACE_HEADER_SETS ON)
