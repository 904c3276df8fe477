#pragma once
// The largest stress in each member and rail of a solved case; and the same case with members as soft as they are once
// they are bent to their limit.

#include <map>
#include <string>

#include "loads/solved_cases.h"

namespace fitup::loads {

struct MemberStress {
  double utilisation = -1;
  double stress_mpa = 0;
  double limit_mpa = 0;
  double buckles = 1;       // what a strut keeps of its yield load, where it is pressed
  bool with_sheet = false;  // as a strut together with the sheet that is welded along it
  std::size_t piece = 0;
  Vec3 at{};
  const char* source = "";
  InnerForces inner{};  // there, in the member's own axes
  BeamStress beam{};    // of these, their moments over `plastic`
  double plastic = 1;
  double push_mpa = 0;  // on the mean of the member's length
};
/// "N 6376 N, M_y -18.3 Nm, ...": what the stress comes of.
[[nodiscard]] std::string in_words(const MemberStress& stress);
/// Whether a section is at its limit when its outermost fibre yields, or, a solid flat and an angle of stout legs, when
/// it yields through its depth (class 1 of EN 1993-1-1: N / N_pl + M_y / M_pl,y + M_z / M_pl,z after 6.2.1, W_pl 1.5
/// W_el).
enum class YieldAt { fibre, depth };
/// By instance. What presses a member is counted over its whole length on the mean, and over what a strut of that
/// length keeps (EN 1993-1-1, 6.3.1): about its weakest axis, or, where sheet is welded along it, out of the sheet's
/// plane together with 15 epsilon t of the sheet (EN 1993-1-5, 9.1, from memory).
[[nodiscard]] std::map<InstanceId, MemberStress> member_stresses(const Plan& plan, const FrameModel& model,
                                                                 const SolvedCase& solved, YieldAt at = YieldAt::fibre);

/// Along a panel's x and y and as shear, MPa.
struct PlaneStress {
  double x = 0, y = 0, xy = 0;
};
/// Of a panel of sheet in its middle, by von Mises; bending counts by depth, or by fibre.
struct SheetStress {
  double utilisation = -1;
  double stress_mpa = 0;
  double limit_mpa = 0;
  const char* source = "";
  PlaneStress in_plane{};  // of its forces
  PlaneStress bent{};      // at its face, of its moments
};
/// "in its plane ...": what the stress comes of.
[[nodiscard]] std::string in_words(const SheetStress& stress);
/// What each panel of a model may take; refers to it.
class SheetLimits {
 public:
  SheetLimits(const Plan& plan, const FrameModel& model);
  /// Of a panel that is bent and drawn so.
  [[nodiscard]] SheetStress stress(const SolvedCase& solved, std::size_t panel, const PanelForces& forces,
                                   YieldAt at) const;

 private:
  struct Limit {
    double yield_mpa = 0;  // 0: not known
    const char* source = "";
  };
  const FrameModel& model_;
  std::vector<Limit> limits_;  // by panel
};

/// A case with members and sheet that are over their limit made softer until none is. What comes of it is in balance
/// with the load: where nothing is over its limit then, by depth, the frame carries it, whatever its stiffness (the
/// static theorem of limit analysis).
struct Relieved {
  FrameCase softened;  // its frame's softer members and panels
  SolvedCase solved;   // refers to `softened`
};
struct Relief {
  bool over = false;               // some member, by fibre, or sheet, by depth
  std::unique_ptr<Relieved> soft;  // nothing where none was found, or what is over it may not be bent so far
  int rounds = 0;                  // after which it was found, or left: at the pace of the last the limit is far
  bool may_not_bend = false;       // some member is over its limit whose section is not stout
};
/// Of one without: "in 4 rounds of softening no state in balance within the limits was found". That is no proof that
/// there is none: it fails on the safe side.
[[nodiscard]] std::string why_not_relieved(const Relief& relief);
/// Whether it is enough to know that a case has none: the one that is most over its limit is asked first, and those
/// after one without are left as if they were not over. Or taken to have none either, where only verdicts count, and
/// one that fails is enough.
enum class Until { all_are_known, one_fails, verdicts_are_known };
/// Of each case, in their order.
[[nodiscard]] std::vector<Relief> reliefs(const Plan& plan, const FrameModel& model,
                                          const std::vector<SolvedCase>& cases, Until until = Until::all_are_known);

}  // namespace fitup::loads
