"""The source tree keeps its rules, and each rule notices when it is broken.

python3 structure_test.py project RULE   the project against one rule
python3 structure_test.py rules          every rule against small broken trees
"""

import sys
import tempfile
from pathlib import Path

import rules

ROOT = Path(__file__).resolve().parents[2]

STAGE = "// Does a thing.\n// Entry: thing().\n#include \"{0}\"\n"

# One file more breaks the rule named; the last entry is a word that the complaint must contain.
BROKEN = [
    ("includes_between_folders", "src/geometry/a.cpp", STAGE.format("fitup/plan.h"), "geometry may not use plan"),
    ("includes_between_folders", "src/plan/a.cpp", STAGE.format("solid/face.h"), "plan may not use solid"),
    ("includes_between_folders", "src/diag/a.cpp", STAGE.format("fitup/new.h"), "no folder"),
    ("includes_between_folders", "include/fitup/tables.h", "#pragma once\n#include \"fitup/model.h\"\n", "may not use"),
    ("includes_between_folders", "include/fitup/plan.h", "#pragma once\n#include \"plan/end_cut.h\"\n", "private"),
    ("libraries_between_folders", "src/diag/CMakeLists.txt", "fitup_stage(diag SOURCES a.cpp USES base checks)", "checks"),
    ("libraries_in_their_rooms", "src/checks/a.cpp", STAGE.format("gp_Pnt.hxx"), "gp_Pnt.hxx"),
    ("libraries_in_their_rooms", "include/fitup/model.h", "#pragma once\n#include <TopoDS.hxx>\n", "TopoDS.hxx"),
    ("libraries_in_their_rooms", "src/layout/a.cpp", STAGE.format("toml++/toml.h"), "only spec may"),
    ("no_long_files", "tests/tables/a_test.cpp", "\n" * 601, "601 lines"),
    ("top_level", "notes.md", "", "notes.md"),
    ("every_source_is_built", "src/tables/forgotten.cpp", STAGE.format("fitup/tables.h"), "no CMakeLists.txt"),
    ("every_source_is_built", "tests/tables/lone.cpp", "", "lone.cpp"),
    ("files_open_as_agreed", "src/plan/a.h", "#ifndef A\n", "pragma once"),
    ("files_open_as_agreed", "src/plan/a.cpp", "#include <map>\n// Entry: late().\n", "its entry"),
    ("no_loose_ends", "tests/tables/a_test.cpp", "TEST(A, DISABLED_" + "b) {}\n", "DISABLED_"),
    ("no_loose_ends", "src/plan/a.cpp", "// TO" + "DO\n", "TO" + "DO"),
]

SOUND = {
    "README.md": "",
    "build/anything": "",
    "include/fitup/tables.h": "#pragma once\n#include \"fitup/geometry.h\"\n",
    "src/tables/sound.cpp": STAGE.format("fitup/tables.h"),
    "src/tables/CMakeLists.txt": "fitup_stage(tables SOURCES sound.cpp USES geometry PRIVATE_USES fmt::fmt)\n",
    "src/solid/face.cpp": STAGE.format("gp_Pnt.hxx"),
    "src/solid/CMakeLists.txt": "fitup_stage(solid\n  SOURCES face.cpp\n  USES plan\n  PRIVATE_USES Threads::Threads)\n",
    "tests/tables/sound_test.cpp": "#include \"fitup/tables.h\"\n",
    "tests/tables/CMakeLists.txt": "fitup_test(tables SOURCES sound_test.cpp USES tables)\n",
}


def plant(root, files):
    for name, text in files.items():
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")


def test_project(rule):
    return getattr(rules, rule)(ROOT)


def test_rules():
    wrong = []
    with tempfile.TemporaryDirectory() as folder:
        plant(Path(folder), SOUND)
        wrong += [f"{rule.__name__} complains of a sound tree: {line}"
                  for rule in rules.RULES for line in rule(Path(folder))]
    for rule, name, text, word in BROKEN:
        with tempfile.TemporaryDirectory() as folder:
            plant(Path(folder), SOUND | {name: text})
            if not any(word in line for line in getattr(rules, rule)(Path(folder))):
                wrong.append(f"{rule} does not notice {name}: {text!r}")
    unproved = {rule.__name__ for rule in rules.RULES} - {rule for rule, *_ in BROKEN}
    return wrong + [f"nothing shows that {rule} can fail" for rule in sorted(unproved)]


def main():
    wrong = test_project(sys.argv[2]) if sys.argv[1] == "project" else test_rules()
    for line in wrong:
        print(line)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
