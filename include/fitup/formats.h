#pragma once
// Which of the usual forms of a file is written.

namespace fitup {

/// The application protocol of ISO 10303 that STEP files follow.
enum class StepSchema { ap242, ap214 };

/// The release of DXF: AC1015 ("2000") or AC1009 ("R12"), which old cutters and programs read.
enum class DxfRelease { r2000, r12 };

}  // namespace fitup
