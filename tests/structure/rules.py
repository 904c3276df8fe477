"""The rules of the source tree. Each takes the project's root and returns what breaks it, one line each."""

import re
from pathlib import Path

# What each folder under src/ may include from others, by its public headers. Stages that come later are absent.
ALLOWED = {
    "base": set(),
    "diag": {"base"},
    "geometry": {"base"},
    "tables": {"base", "geometry"},
    "spec": {"base", "diag", "geometry", "tables"},
    "layout": {"base", "diag", "geometry", "tables", "spec"},
    "plan": {"base", "diag", "geometry", "tables", "spec", "layout"},
    "solid": {"base", "diag", "geometry", "tables", "plan"},
    "checks": {"base", "diag", "geometry", "tables", "plan", "solid"},
    "loads": {"base", "diag", "geometry", "tables", "plan", "solid", "checks"},
    "remedies": {"base", "diag", "geometry", "tables", "spec", "layout", "plan", "solid", "checks", "loads"},
    "output": {"base", "diag", "geometry", "tables", "spec", "layout", "plan", "solid", "checks", "loads"},
    "compare": {"base", "diag", "geometry", "tables", "spec", "layout", "plan", "solid", "checks", "loads", "output"},
    "inspect": {"base", "geometry", "tables", "plan", "solid", "checks", "output"},
    "bench": {"base", "diag", "geometry", "tables", "plan", "solid", "checks", "loads", "output"},
    "app": {"base", "diag", "geometry", "tables", "spec", "layout", "plan", "solid", "checks", "loads", "remedies",
            "output", "compare", "inspect", "bench"},
}

# Which folder answers for each public header.
HEADER_OF = {
    "result": "base", "formats": "base", "quantity": "base", "tolerances": "base", "making": "base", "load_rules": "base", "cut_rules": "base", "diagnostic": "diag", "geometry": "geometry",
    "tables": "tables", "welded_sizes": "tables", "sheet_fit": "tables", "drills": "tables", "seal_materials": "tables", "spec": "spec", "spec_boxes": "spec", "spec_items": "spec", "prices": "spec", "layout": "layout", "plan": "plan", "part": "plan", "pattern": "plan", "sequence": "plan", "space": "plan", "model": "solid", "findings": "checks",
    "seams": "checks", "weight": "loads", "calculation": "loads", "loads": "loads", "remedies": "remedies", "lighten": "remedies", "job": "output", "inspect": "inspect", "paper": "base", "bench": "bench",
}

# Libraries that one folder keeps to itself.
HOUSED = {"toml++/": {"spec"}, "CLI/": {"app"}, "cairo": {"bench"}, "pango/": {"bench"}, "Eigen/": {"bench", "loads"},
          "Model/COM/": {"output"}}

TOP_LEVEL = {"CMakeLists.txt", "README.md", "DEVELOPERS.md", "src", "include", "tests", "fixtures", "examples"}
MADE_BY_BUILDS = re.compile(r"^(build(-.*)?|out|__pycache__)$")

LONGEST_FILE = 400
INCLUDE = re.compile(r'^\s*#\s*include\s*[<"]([^>"]+)[>"]', re.MULTILINE)


def sources(folder, *suffixes):
    return sorted(p for p in folder.rglob("*") if p.is_file() and p.suffix in suffixes)


def included(path):
    return INCLUDE.findall(path.read_text(encoding="utf-8"))


def folder_of(include):
    """The stage an include belongs to, or None if it is no file of ours."""
    first, _, rest = include.partition("/")
    if first == "fitup":
        return HEADER_OF.get(Path(rest).stem, f"no folder (say in rules.py whose header {include} is)")
    return first if first in ALLOWED and rest else None


def includes_between_folders(root):
    """A folder includes only itself and what the stage table allows; public headers likewise."""
    wrong = []
    for path in sources(root / "src", ".h", ".cpp"):
        own = path.relative_to(root / "src").parts[0]
        wrong += forbidden(root, path, own)
    for path in sources(root / "include", ".h"):
        wrong += forbidden(root, path, HEADER_OF.get(path.stem, "?"))
        wrong += [f"{path.relative_to(root)} includes {i}: a public header includes no private one"
                  for i in included(path) if folder_of(i) and not i.startswith("fitup/")]
    return wrong


def forbidden(root, path, own):
    return [f"{path.relative_to(root)} includes {i}: {own} may not use {folder_of(i)}"
            for i in included(path) if folder_of(i) not in {None, own} | ALLOWED.get(own, set())]


def libraries_between_folders(root):
    """A folder's CMakeLists.txt names under USES only what it may include."""
    wrong = []
    for path in sorted((root / "src").glob("*/CMakeLists.txt")):
        own = path.parent.name
        for block in re.findall(r"fitup_stage\((.*?)\)", path.read_text(encoding="utf-8"), re.DOTALL):
            used = re.search(r"\bUSES((?:\s+[a-z]+\b(?!:))*)", block)
            wrong += [f"{path.relative_to(root)} uses {name}: {own} may not"
                      for name in (used.group(1).split() if used else []) if name not in ALLOWED.get(own, set())]
    return wrong


def libraries_in_their_rooms(root):
    """The solid kernel is included in src/solid alone, the TOML parser in src/spec, and so on."""
    wrong = []
    for path in sources(root / "src", ".h", ".cpp") + sources(root / "include", ".h"):
        relative = path.relative_to(root)
        own = relative.parts[1]
        for include in included(path):
            if include.endswith(".hxx") and own != "solid":
                wrong.append(f"{relative} includes the solid kernel's {include}")
            wrong += [f"{relative} includes {include}: only {', '.join(sorted(rooms))} may"
                      for prefix, rooms in HOUSED.items() if include.startswith(prefix) and own not in rooms]
    return wrong


def no_long_files(root):
    wrong = []
    for folder in ("src", "include", "tests"):
        for path in sources(root / folder, ".h", ".cpp", ".py", ".sh", ".cmake", ".txt"):
            lines = len(path.read_text(encoding="utf-8").splitlines())
            if lines > LONGEST_FILE:
                wrong.append(f"{path.relative_to(root)} has {lines} lines; {LONGEST_FILE} is the most")
    return wrong


def top_level(root):
    """Visible entries of the root: what is agreed, and what builds leave behind (ignored by git)."""
    return [f"{p.name} does not belong at the top level" for p in sorted(root.iterdir())
            if not p.name.startswith(".") and p.name not in TOP_LEVEL and not MADE_BY_BUILDS.match(p.name)]


def every_source_is_built(root):
    """There are no globs: a source that no CMakeLists.txt names would never be compiled."""
    wrong = []
    for path in sources(root / "src", ".cpp") + sources(root / "tests", ".cpp"):
        if "consumer" in path.parts:
            continue
        lists = [p / "CMakeLists.txt" for p in path.parents if root in p.parents and (p / "CMakeLists.txt").exists()]
        named = any(re.search(rf"(^|[\s/(]){re.escape(path.name)}(?=[\s)])", found.read_text(encoding="utf-8"))
                    for found in lists)
        if not named:
            wrong.append(f"{path.relative_to(root)} stands in no CMakeLists.txt")
    return wrong


def files_open_as_agreed(root):
    """Headers open with #pragma once; a source of src/ says its job and then its entry."""
    wrong = []
    for path in sources(root / "include", ".h") + sources(root / "src", ".h"):
        if not path.read_text(encoding="utf-8").startswith("#pragma once\n"):
            wrong.append(f"{path.relative_to(root)} does not open with #pragma once")
    for path in sources(root / "src", ".cpp"):
        opening = path.read_text(encoding="utf-8").split("\n#", 1)[0]
        comment = [line for line in opening.splitlines() if line.startswith("//")]
        if len(comment) < 2 or not any(line.startswith("// Entry: ") for line in comment):
            wrong.append(f"{path.relative_to(root)} does not open with its job and its entry")
    return wrong


LOOSE_ENDS = re.compile(r"\b(TODO|FIXME|XXX|HACK)\b|[Nn]ot implemented|GTEST_SKIP|\bDISABLED_|EXPECT_TRUE\(true\)")


def no_loose_ends(root):
    """Nothing is put off and no test is switched off."""
    wrong = []
    for folder in ("src", "include", "tests"):
        for path in sources(root / folder, ".h", ".cpp"):
            for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
                found = LOOSE_ENDS.search(line)
                if found:
                    wrong.append(f"{path.relative_to(root)}:{number} says {found.group(0)}")
    return wrong


RULES = [includes_between_folders, libraries_between_folders, libraries_in_their_rooms, no_long_files, top_level,
         every_source_is_built, files_open_as_agreed, no_loose_ends]
