// The judge of STEP files judged: syntax, strings of the standard, and volumes in closed form.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "judges/part21.h"
#include "judges/part21_assembly.h"
#include "judges/part21_volume.h"
#include "solid/step_text.h"

namespace fitup {
namespace {

constexpr double pi = std::numbers::pi;

std::string file_of(const std::string& data) {
  return "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION((''),'2;1');\nFILE_NAME('','',(''),(''),'','','');\n"
         "FILE_SCHEMA(('X'));\nENDSEC;\nDATA;\n" +
         data + "ENDSEC;\nEND-ISO-10303-21;\n";
}

// ISO 10303-21:2016, string encoding (found: the published string-encoding page of the IFC community).
struct Encoding {
  const char* name;
  const char* utf8;
  const char* encoded;
};
const Encoding encodings[] = {
    {"umlaut", "\xC3\x84", "\\X2\\00C4\\X0\\"},
    {"beyond_the_basic_plane", "\xF0\x9F\x98\x80", "\\X4\\0001F600\\X0\\"},
    {"apostrophe_doubled", "it's", "it''s"},
    {"reverse_solidus_doubled", "a\\b", "a\\\\b"},
    {"run_of_two", "\xC3\xA4\xC3\xB6", "\\X2\\00E400F6\\X0\\"},
    {"in_the_middle",
     "s\xC3\xBC"
     "d",
     "s\\X2\\00FC\\X0\\d"},
    {"plain", "plate 12 (M6) ~ {x}", "plate 12 (M6) ~ {x}"},
    {"both_pages", "\xE2\x80\x93\xF0\x9F\x98\x80-", "\\X2\\2013\\X0\\\\X4\\0001F600\\X0\\-"},
};

TEST(StepString, is_encoded_as_iso_10303_21_has_it) {
  for (const Encoding& one : encodings) EXPECT_EQ(solid::step_string(one.utf8), one.encoded) << one.name;
}

TEST(StepString, is_decoded_by_the_judge_to_what_it_was) {
  for (const Encoding& one : encodings) EXPECT_EQ(judges::decode_part21_string(one.encoded), one.utf8) << one.name;
  EXPECT_EQ(judges::decode_part21_string("\\X\\C4"), "\xC3\x84");
  EXPECT_EQ(judges::decode_part21_string("\\S\\D"), "\xC3\x84");
}

TEST(StepString, holds_no_character_outside_32_to_126_whatever_comes_in) {
  std::string all;
  for (int c = 0; c < 256; ++c) all += static_cast<char>(c);
  all += "\xE2\x80";          // cut short
  all += "\xED\xA0\x80";      // half of a surrogate pair
  all += "\xC0\xAF\xF8\x88";  // overlong, and no UTF-8 at all
  for (const char c : solid::step_string(all)) {
    EXPECT_GE(c, 32);
    EXPECT_LE(c, 126);
  }
}

TEST(StepString, stands_in_for_its_key_only_where_the_key_is_the_whole_string) {
  solid::StepWords words;
  const std::string key = words.key("Bl\xC3\xA4tt'");
  EXPECT_EQ(words.put_into("#1=A('" + key + "','x" + key + "','it''s');"),
            "#1=A('Bl\\X2\\00E4\\X0\\tt''','x~0~','it''s');");
  EXPECT_EQ(words.put_into("('a\nb')"), "('ab')");
  EXPECT_EQ(words.put_into("('~7~','~~','~x~')"), "('~7~','~~','~x~')");
}

TEST(Part21, is_read_into_records) {
  const auto file = judges::read_part21(file_of(
      "#1 = POINT('a''b',(1.,-2.5E-1,$),.T.,*,#2,LENGTH_MEASURE(3.)); /* why */\n#2=(A() B('x') C(#1,(#1,#2)));\n"));
  ASSERT_TRUE(file) << file.error().reason;
  const auto& point = file->record(1);
  EXPECT_EQ(point.type, "POINT");
  EXPECT_EQ(point.text(0), "a'b");
  EXPECT_EQ(point.at(1).at(1).number, -0.25);
  EXPECT_EQ(point.at(1).at(2).kind, judges::Value::Kind::absent);
  EXPECT_TRUE(point.at(2).is_true());
  EXPECT_EQ(point.at(3).kind, judges::Value::Kind::derived);
  EXPECT_EQ(point.ref(4), 2);
  EXPECT_EQ(point.at(5).at(0).number, 3);
  ASSERT_NE(file->find(2, "C"), nullptr);
  EXPECT_EQ(file->find(2, "C")->at(1).references(), (std::vector<int>{1, 2}));
  EXPECT_TRUE(file->dangling().empty());
}

TEST(Part21, with_a_flaw_is_refused) {
  EXPECT_FALSE(judges::read_part21(""));
  EXPECT_FALSE(judges::read_part21("solid x"));
  EXPECT_FALSE(judges::read_part21(file_of("#1=A(;\n")));
  EXPECT_FALSE(judges::read_part21(file_of("#1=A();\n#1=B();\n")));
  EXPECT_FALSE(judges::read_part21(file_of("#1=A('caf\xC3\xA9');\n"))) << "raw UTF-8 is not allowed";
  EXPECT_FALSE(judges::read_part21(file_of("#1=A('a\nb');\n"))) << "neither is a line break in a string";
  std::string cut = file_of("#1=A();\n");
  cut.resize(cut.size() - 20);
  EXPECT_FALSE(judges::read_part21(cut));
}

TEST(Part21, names_references_to_nothing) {
  const auto file = judges::read_part21(file_of("#1=A(#2,(#3));\n#2=B();\n"));
  ASSERT_TRUE(file);
  EXPECT_EQ(file->dangling(), std::vector<int>{3});
}

/// A turned body about z from height 0 to `height`: two discs and a mantle with a seam, written by hand.
std::string turned(double low_radius, double high_radius, double height, const std::string& mantle) {
  const auto number = [](double v) { return std::to_string(v); };
  const std::string r0 = number(low_radius);
  const std::string r1 = number(high_radius);
  const std::string h = number(height);
  return file_of(
      "#1=CARTESIAN_POINT('',(0.,0.,0.));#2=CARTESIAN_POINT('',(0.,0.," + h + "));\n" +
      "#3=DIRECTION('',(0.,0.,1.));#4=DIRECTION('',(1.,0.,0.));#5=DIRECTION('',(0.,0.,-1.));\n" +
      "#6=AXIS2_PLACEMENT_3D('',#1,#3,#4);#7=AXIS2_PLACEMENT_3D('',#2,#3,#4);#8=AXIS2_PLACEMENT_3D('',#1,#5,#4);\n" +
      "#10=CARTESIAN_POINT('',(" + r0 + ",0.,0.));#11=CARTESIAN_POINT('',(" + r1 + ",0.," + h + "));\n" +
      "#12=VERTEX_POINT('',#10);#13=VERTEX_POINT('',#11);\n" + "#14=CIRCLE('',#6," + r0 + ");#15=CIRCLE('',#7," + r1 +
      ");#16=LINE('',#10,$);\n" +
      "#20=EDGE_CURVE('',#12,#12,#14,.T.);#21=EDGE_CURVE('',#13,#13,#15,.T.);#22=EDGE_CURVE('',#12,#13,#16,.T.);\n" +
      // The lower disc looks down: its loop runs against the circle.
      "#30=ORIENTED_EDGE('',*,*,#20,.F.);#31=EDGE_LOOP('',(#30));#32=FACE_OUTER_BOUND('',#31,.T.);\n" +
      "#33=PLANE('',#8);#34=ADVANCED_FACE('',(#32),#33,.T.);\n" +
      "#40=ORIENTED_EDGE('',*,*,#21,.T.);#41=EDGE_LOOP('',(#40));#42=FACE_OUTER_BOUND('',#41,.T.);\n" +
      "#43=PLANE('',#7);#44=ADVANCED_FACE('',(#42),#43,.T.);\n" +
      "#50=ORIENTED_EDGE('',*,*,#20,.T.);#51=ORIENTED_EDGE('',*,*,#22,.T.);#52=ORIENTED_EDGE('',*,*,#21,.F.);\n" +
      "#53=ORIENTED_EDGE('',*,*,#22,.F.);#54=EDGE_LOOP('',(#50,#51,#52,#53));#55=FACE_OUTER_BOUND('',#54,.T.);\n" +
      "#56=" + mantle + ";#57=ADVANCED_FACE('',(#55),#56,.T.);\n" +
      "#60=CLOSED_SHELL('',(#34,#44,#57));#61=MANIFOLD_SOLID_BREP('',#60);\n");
}

TEST(Part21Volume, of_a_cylinder_is_pi_r2_h) {
  const auto file = judges::read_part21(turned(3, 3, 8, "CYLINDRICAL_SURFACE('',#6,3.)"));
  ASSERT_TRUE(file);
  const auto volume = judges::volume_of_solid(*file, 61);
  ASSERT_TRUE(volume) << volume.error().reason;
  EXPECT_NEAR(*volume, pi * 9 * 8, 1e-9);
}

TEST(Part21Volume, of_a_frustum_is_pi_h_by_3_times_its_three_squares) {
  const double half_angle = std::atan((5.0 - 2.0) / 4.0);
  const auto file =
      judges::read_part21(turned(2, 5, 4, "CONICAL_SURFACE('',#6,2.," + std::to_string(half_angle) + ")"));
  ASSERT_TRUE(file);
  const auto volume = judges::volume_of_solid(*file, 61);
  ASSERT_TRUE(volume) << volume.error().reason;
  EXPECT_NEAR(*volume, pi * 4 / 3 * (4 + 10 + 25), 1e-4);
}

TEST(Part21Volume, of_an_open_shell_is_refused) {
  std::string text = turned(3, 3, 8, "CYLINDRICAL_SURFACE('',#6,3.)");
  text.replace(text.find("(#34,#44,#57)"), 13, "(#34,#57)");
  const auto file = judges::read_part21(text);
  ASSERT_TRUE(file);
  EXPECT_FALSE(judges::volume_of_solid(*file, 61));
}

TEST(Part21Volume, on_a_surface_without_a_rule_is_refused_by_its_name) {
  const auto file = judges::read_part21(turned(3, 3, 8, "TOROIDAL_SURFACE('',#6,3.,1.)"));
  ASSERT_TRUE(file);
  const auto volume = judges::volume_of_solid(*file, 61);
  ASSERT_FALSE(volume);
  EXPECT_NE(volume.error().reason.find("TOROIDAL_SURFACE"), std::string::npos);
}

}  // namespace
}  // namespace fitup
