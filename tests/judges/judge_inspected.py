#!/usr/bin/python3
"""A second opinion on files that `inspect` has judged: ezdxf on DXF, admesh on STL.

judge_inspected.py FOLDER    reads FOLDER/said.json; exit status 0: of one opinion, 1: not, printed.

said.json: a list of {file, facts: {name: value}, fails: [check], marginal: [check]}, facts in mm. Of a drawing the
extent, the length of all that is cut, and whether every outline is closed are worked out anew from ezdxf's own reading:
closed means that at every place an even number of ends meet, within the 0.1 mm that shops ask about. Of a mesh admesh
tells facets, parts, extent and volume, and whether it would mend anything.
"""
import collections
import io
import json
import math
import pathlib
import re
import subprocess
import sys

import ezdxf
from ezdxf import path as ezpath
from ezdxf import recover
from ezdxf.disassemble import recursive_decompose

UNIT_MM = {1: 25.4, 4: 1.0, 5: 10.0, 6: 1000.0}
CUT_TYPES = {"LINE", "ARC", "CIRCLE", "LWPOLYLINE", "POLYLINE", "SPLINE", "ELLIPSE"}
NO_CUT_LAYERS = {"NOTE", "MARK", "BEND"}
CLOSED_MM = 0.1
NEVER_CUT = {"HATCH", "3DSOLID", "DIMENSION"}
SUBCLASS = {"LWPOLYLINE": "AcDbPolyline", "SPLINE": "AcDbSpline", "ELLIPSE": "AcDbEllipse"}


def with_subclasses(text):
    """ezdxf takes some kinds of entities with their subclass markers alone, which many programs leave out. Of those that
    are never cut it is spared."""
    lines = text.splitlines()
    out, pending, spared = [], None, False
    for code, value in zip(lines[::2], lines[1::2]):
        if code.strip() == "0":
            pending = SUBCLASS.get(value.strip())
            spared = value.strip() in NEVER_CUT
        if spared:
            continue
        out += [code, value]
        if code.strip() == "8" and pending:
            out += ["100", "AcDbEntity", "100", pending]
            pending = None
    if "$ACADVER" not in text:  # ezdxf takes it for R12, which has no LWPOLYLINE
        out = ["0", "SECTION", "2", "HEADER", "9", "$ACADVER", "1", "AC1015", "0", "ENDSEC"] + out
    return "\n".join(out) + "\n"


def shows(entity, doc):
    layer = doc.layers.get(entity.dxf.layer) if doc.layers.has_entry(entity.dxf.layer) else None
    if layer is not None and (layer.is_off() or layer.is_frozen() or layer.dxf.linetype == "CENTER"):
        return False
    return entity.dxf.layer not in NO_CUT_LAYERS and entity.dxf.get("paperspace", 0) == 0


def cut_paths(doc):
    for entity in recursive_decompose(doc.modelspace()):
        if entity.dxftype() in CUT_TYPES and shows(entity, doc):
            yield ezpath.make_path(entity)


def length_of(points):
    return sum(a.distance(b) for a, b in zip(points, points[1:]))


class Drawing:
    """What ezdxf makes of the file, in mm."""

    def __init__(self, doc):
        by = UNIT_MM.get(doc.units, 1.0)
        self.length = 0.0
        self.xs, self.ys = [], []
        ends = []
        for path in cut_paths(doc):
            points = list(path.flattening(1e-4 / by, segments=64))
            length = by * length_of(points)
            if length == 0:
                continue
            self.length += length
            self.xs += [by * p.x for p in points]
            self.ys += [by * p.y for p in points]
            if points[0].distance(points[-1]) * by > CLOSED_MM:
                ends += [(by * points[0].x, by * points[0].y), (by * points[-1].x, by * points[-1].y)]
        self.closed = all(sum(math.dist(a, b) <= CLOSED_MM for b in ends) % 2 == 0 for a in ends)

    @property
    def size(self):
        return max(self.xs) - min(self.xs), max(self.ys) - min(self.ys)


def near(a, b, by=5e-4):  # ezdxf's paths are cubic curves, 3e-4 off a circle
    return abs(a - b) <= by * max(1.0, abs(a), abs(b))


def judge_drawing(path, said):
    doc, _ = recover.read(io.BytesIO(with_subclasses(path.read_text(encoding="latin-1")).encode("latin-1")))
    drawing = Drawing(doc)
    fails, facts = set(said["fails"]), said["facts"]
    if not drawing.xs:
        return [] if "outline" in fails else ["ezdxf finds nothing that is cut"]
    found = []
    if drawing.closed == ("closed" in fails) and not fails & {"complete", "flat", "drawn once"}:
        found.append(f"ezdxf finds it {'closed' if drawing.closed else 'open'}, said was {sorted(fails)}")
    whole = not fails & {"closed", "drawn once", "complete", "apart", "inside"}
    if whole and "cut length" in facts and not near(drawing.length, facts["cut length"]):
        found.append(f"ezdxf: {drawing.length:.4f} mm are cut, said was {facts['cut length']:.4f}")
    for axis, size in zip("xy", drawing.size):
        if whole and f"size {axis}" in facts and not near(size, facts[f"size {axis}"]):
            found.append(f"ezdxf: size {axis} {size:.4f} mm, said was {facts[f'size {axis}']:.4f}")
    return found


def numbers_after(text, label):
    match = re.search(re.escape(label) + r"\s*:\s*([-0-9.eE+ ]+)", text)
    return [float(n) for n in match.group(1).split()] if match else [0.0]


def judge_mesh(path, said):
    run = subprocess.run(["admesh", "--fill-holes", "--normal-directions", "--remove-unconnected", "--exact", str(path)],
                         capture_output=True, text=True, check=False, timeout=60)
    text, found = run.stdout, []
    fails, marginal, facts = set(said["fails"]), set(said["marginal"]), said["facts"]
    if "facets" in fails or "complete" in fails:
        return found if run.returncode != 0 or numbers_after(text, "Number of facets")[0] != facts.get("facets") or fails \
            else ["admesh finds nothing wrong with a file that was called broken"]
    opened = numbers_after(text, "Total disconnected facets")[0] > 0
    if "two facets an edge" in fails and "doubled" not in fails:
        return found  # of bodies that touch along an edge admesh says nothing
    if opened != bool(fails & {"closed", "doubled"}) and not (opened and "facets without area" in marginal):
        found.append(f"admesh: {'open' if opened else 'closed'}, said was {sorted(fails)}")
    volume = numbers_after(text, "Volume")[0]
    turned = numbers_after(text, "Facets reversed")[0] > 0 or numbers_after(text, "Backwards edges")[0] > 0 or volume < 0
    whole = not fails & {"closed", "doubled"} and "outward" not in marginal  # admesh goes by the normals that are stated
    if whole and turned != ("outward" in fails):
        found.append(f"admesh finds facets turned round: {turned}, said was {sorted(fails)}")
    if whole and "outward" not in fails:
        if "volume" in facts and not near(volume, facts["volume"], 1e-3):
            found.append(f"admesh: volume {volume}, said was {facts['volume']}")
        if numbers_after(text, "Number of parts")[0] != facts["bodies"]:
            found.append(f"admesh: {numbers_after(text, 'Number of parts')} parts, said was {facts['bodies']}")
    return found


def main():
    folder = pathlib.Path(sys.argv[1])
    opinions = collections.Counter()
    different = 0
    for said in json.loads((folder / "said.json").read_text(encoding="utf-8")):
        path = folder / said["file"]
        try:
            found = (judge_drawing if path.suffix == ".dxf" else judge_mesh)(path, said)
        except (ezdxf.DXFError, OSError, RecursionError) as error:  # a block that holds itself recurs without end
            found = [] if said["fails"] else [f"ezdxf does not read it: {error}"]
        opinions[path.suffix] += 1
        for line in found:
            different += 1
            print(f"{path.name}: {line}")
    print(f"looked at {opinions['.dxf']} drawings and {opinions['.stl']} meshes, {different} different")
    sys.exit(1 if different else 0)


if __name__ == "__main__":
    main()
