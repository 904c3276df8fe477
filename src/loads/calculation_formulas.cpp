// What each load check reckons with, for the calculation paper.
// Entry: formulas_of.
#include <array>

#include "fitup/calculation.h"

namespace fitup {

namespace {

struct Row {
  std::string_view check;
  CalculationFormula formula;
};

constexpr std::array<Row, 29> table{{
    {"weight", {"mass", "m = sum of m_i, x = sum of m_i x_i / m"}},
    {"lift",
     {"eye", "m_v = m s f_dyn, s the largest share of any pair or triple of legs; m_v <= its rating at 45 degrees"}},
    {"lift", {"leg", "T = m_v / cos a, a from vertical; T <= the eye's rating along its axis"}},
    {"balance",
     {"tilt",
      "tan t = e / h, e from the hook's line to the centre of mass, h below the hook; on two points also about the line "
      "between them, e beside and h below that line, both angles together as the root of their squares"}},
    {"bosses",
     {"thread",
      "F = 0.6 R_m A_s, A_s = L (pi / P) d (P / 2 + (d - d_2) tan 30) of the tapped one, with d_1 for d and d_2 - d_1 for "
      "d - d_2 on the eye; d_2 = d - 0.6495 P, d_1 = d - 1.0825 P, L the length that both share"}},
    {"bosses",
     {"beads", "sqrt((F / A + F_h h / W)^2 + (F_h / A)^2), A = sum of pi d a, W = sum of pi d^2 a / 4, a the throat; F_h = F tan of the sling's angle"}},
    {"bosses",
     {"leg or plate",
      "s = M / (L t^2 / 6), and M / (L t^2 / 4) once its section is plastic, M the larger of F e and F_h h - F e, e to what "
      "holds it; L = d + 2 e as far as that goes; t with a doubler all round t + t_d; sheared F / (pi d t). Over its limit "
      "by the first alone it is marginal"}},
    {"bosses",
     {"face of a tube",
      "F / N + M / M_u <= 1, M_u the less of those along and across the tube (EN 1993-1-8, table 7.14), punched with F + "
      "4 M / d round d; N = (pi / 4) k_n f_y t^2 (2 B + 4 sqrt(1 - B)) / (1 - B), B = d / b, k_n = 1.3 - 0.4 n / B. "
      "Yield lines are an upper bound; plate elements that stay in balance, a lower one, carry 0.8 of N and 0.65 of M_u at "
      "least, and the factor on yield is beside that"}},
    {"frame",
     {"members",
      "K u = f; s = N / A + z (M_y I_z + M_z I_yz) / D - y (M_z I_y + M_y I_yz) / D, D = I_y I_z - I_yz^2, at the corner (y, "
      "z) of the section where it is largest; v = T / W_t + V_y / A_y + V_z / A_z; sqrt(s^2 + 3 v^2)"}},
    {"frame",
     {"pressed members",
      "s_m (1 / chi - 1) more, s_m the mean pressure; chi = 1 / (Phi + sqrt(Phi^2 - l^2)), Phi = (1 + alpha (l - 0.2) + "
      "l^2) / 2, l = (L / i) / (pi sqrt(E / f_y)), alpha 0.34 of angles, 0.49 else"}},
    {"frame",
     {"sheet",
      "s_x = n_x / t + m_x / (t^2 / 6), as it yields through its depth m_x / (t^2 / 4), and so s_y and the shear v, in the middle of each rectangle; sqrt(s_x^2 - s_x s_y + "
      "s_y^2 + 3 v^2)"}},
    {"frame",
     {"sheet that buckles",
      "s_cr = k pi^2 E / (12 (1 - nu^2)) (t / b)^2, k = 4 pressed, 5.34 + 4 (b / a)^2 sheared; p_x / s_cr,x + p_y / s_cr,y "
      "+ (v / v_cr)^2, times the factor on yield"}},
    {"seams", {"joints", "|F / A + w x r|, A = sum of a l, M = J w, r from the middle of the throats"}},
    {"seams",
     {"doublers of feet and lugs", "|F / A + w x r| of what welds the doubler to the sheet, F all that the bolt pulls, at the bolt"}},
    {"seams",
     {"sheet's edges",
      "F / A + m / (A e) of seams apart, e = J / (A r); or m / (A d) of a seam and what bears d beside it; or 4 m / (A a) "
      "of a throat alone"}},
    {"seams", {"covers' flanges", "q a b (a + b) / (max(a, b) A), q of the sheet's own mass"}},
    {"seams", {"limit", "f_u / (sqrt 3 beta_w gamma_M2), or 0.30 F_EXX"}},
    {"seams",
     {"thin sheet",
      "below 4 mm EN 1993-1-3, 8.5, has 0.45 to 1 t f_u / gamma_M2 for each mm of a lap, below 1/8 in AISI S100 0.75 t F_u / "
      "3.05 to t F_u / 2.35; beside them a / (sqrt 3 beta_w t), or 0.30 F_EXX a / (t F_u), a the mean throat"}},
    {"seam-size", {"leg", "z >= z_min(t)"}},
    {"hold-down",
     {"bolts and rods",
      "F_v / F_v,Rd + F_t / (1.4 F_t,Rd) <= 1 and F_t <= F_t,Rd; F_v,Rd = alpha_v f_ub A_s / 1.25, F_t,Rd = 0.9 f_ub A_s / "
      "1.25"}},
    {"hold-down",
     {"bearing",
      "F_b,Rd = k alpha f_u d t / 1.25, alpha the least of e / (3 d_0), f_ub / f_u and 1, k the less of 2.8 e / d_0 - 1.7 and "
      "2.5"}},
    {"hold-down", {"feet and lugs", "s = F l / (b t^2 / 4), b = 2 l + d_0 as far as the plate goes"}},
    {"hold-down",
     {"sheet under feet and lugs",
      "s = (F l + F_v l_v) / (b t^2 / 4), l and l_v from the bolt to the seam that holds the sheet; b at 45 degrees from "
      "what lies on it as far as that goes; t with a doubler across that seam, welded all round, t + t_d"}},
    {"hold-down",
     {"rod plates",
      "plate elements, s as of sheet; beyond y = t / 2 between two lines that stay, l apart: y + 3 y^3 / t^2 = y_0, y_0 by "
      "bending alone, bending in proportion to y, and E (pi y / (2 l))^2 of stretch"}},
    {"hold-down", {"what nothing holds", "the number of such items is to be 0"}},
    {"plates",
     {"small deflections", "s = beta q b^2 / t^2, y = alpha q b^4 / (E t^3), b the shorter side"}},
    {"plates",
     {"beyond y = t / 2",
      "q = k_1 y + k_3 y^3, k_1 = E t^3 / (alpha b^4), k_3 = (pi^6 / 256) E t (1 / a^4 + 1 / b^4), and where the edges stay "
      "(pi^6 / 128) E t (1 / a^4 + 2 nu / (a^2 b^2) + 1 / b^4) / (1 - nu^2) more"}},
    {"seals",
     {"between screws", "y = q s^4 / (384 E I), q the seal's pressure times its width, I = w t^3 / 12; y <= 0.2 of the "
                        "squeeze"}},
    {"seals", {"at corners", "y = q c^4 / (8 E I), c beyond the last screw"}},
}};

}  // namespace

std::vector<CalculationFormula> formulas_of(std::string_view check) {
  std::vector<CalculationFormula> found;
  for (const Row& row : table) {
    if (row.check == check) found.push_back(row.formula);
  }
  return found;
}

}  // namespace fitup
