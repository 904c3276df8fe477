#pragma once
// Where a part's files stand in the job folder.

#include <string>
#include <vector>

#include "fitup/job.h"
#include "fitup/plan.h"

namespace fitup::output {

inline constexpr const char* job_list = "job.json";
inline constexpr const char* assembly_step = "assembly.step";
inline constexpr const char* assembly_picture = "assembly.svg";
inline constexpr const char* order_list = "flat/order.csv";
inline constexpr const char* cut_list = "bench/cut-list.csv";
inline constexpr const char* bought_list = "bought.csv";
inline constexpr const char* print_list = "3d-print/list.csv";
inline constexpr const char* weld_list = "checks/welds.csv";
inline constexpr const char* weight_list = "checks/weight.csv";
inline constexpr const char* findings_list = "checks/findings.json";
inline constexpr const char* findings_page = "checks/findings.txt";

/// Whether the laser cuts it.
[[nodiscard]] bool is_cut(const Part& part);
/// Whether the 3D printer makes it.
[[nodiscard]] bool is_printed(const Part& part);

/// Instances of each part, index: PartId. A printed aid that stands nowhere in the assembly is made once.
[[nodiscard]] std::vector<std::size_t> quantities(const Plan& plan);

[[nodiscard]] std::string step_path(const Part& part);  // "parts/ANG03_left-bottom-ring-member.step"
/// "flat/S235JR_2mm/PLT03_left-plate.dxf", the thickness in the cutter's units, the name after the job's
/// pattern. Precondition: the part is cut.
[[nodiscard]] std::string dxf_path(const Plan& plan, PartId id, const JobInfo& info);
[[nodiscard]] std::string threemf_path(const Part& part);
[[nodiscard]] std::string stl_path(const Part& part);  // "3d-print/SPC01_spacer.stl"

}  // namespace fitup::output
