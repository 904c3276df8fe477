#!/usr/bin/python3
"""Judges every DXF file of a job folder with python3-ezdxf and with plain arithmetic.

judge_dxf.py JOBDIR    reads JOBDIR/flat/order.csv; exit status 0: nothing found, 1: found, printed.

For each row: the auditor of ezdxf finds nothing (on both of its ways of reading), the unit is the millimetre or
the inch, in R12 as the note says, only circles and closed polylines lie on CUT, only lines on MARK and BEND and texts on NOTE, one colour throughout, no two
contours on the same place, the lower left at the origin; area, size, cut length, piercings and drilled holes
as measured here are those of the list.
"""
import csv
import fractions
import math
import pathlib
import re
import sys

import ezdxf
from ezdxf import bbox, recover
from ezdxf.audit import Auditor
from ezdxf.math import bulge_to_arc

ALLOWED = {"CUT": {"CIRCLE", "LWPOLYLINE", "POLYLINE"}, "MARK": {"LINE"}, "BEND": {"LINE"}, "NOTE": {"TEXT"}}
BY_LAYER = 256
ADDED_ON_READING = {"Defpoints"}  # by ezdxf itself
COLOUR = 7
INCH = 25.4
# A list has 3 decimals of a millimetre and 2 of its square, 4 of an inch and of its square.
LIST_LENGTH = {"mm": 0.00051, "in": 0.000051 * INCH}
LIST_AREA = {"mm": 0.0051, "in": 0.000051 * INCH**2}


class Contour:
    """Area, length and extents of a closed contour in closed form."""

    def __init__(self):
        self.area = 0.0
        self.length = 0.0
        self.points = []

    def add_line(self, a, b):
        self.area += (a[0] * b[1] - b[0] * a[1]) / 2
        self.length += math.dist(a, b)
        self.points += [a, b]

    def add_arc(self, a, b, bulge):
        self.area += (a[0] * b[1] - b[0] * a[1]) / 2
        centre, start, end, radius = bulge_to_arc(a, b, bulge)
        sweep = 4 * math.atan(bulge)
        # The segment between chord and arc: r^2 / 2 (sweep - sin sweep), outside for a positive bulge.
        self.area += radius**2 / 2 * (sweep - math.sin(sweep))
        self.length += radius * abs(sweep)
        self.points += [a, b]
        turn = (end - start) % (2 * math.pi)  # bulge_to_arc answers counter-clockwise
        for quarter in range(4):
            angle = quarter * math.pi / 2
            if (angle - start) % (2 * math.pi) < turn:
                self.points.append((centre[0] + radius * math.cos(angle), centre[1] + radius * math.sin(angle)))


def contour_of(entity):
    contour = Contour()
    if entity.dxftype() == "CIRCLE":
        c, r = entity.dxf.center, entity.dxf.radius
        contour.area = math.pi * r**2
        contour.length = 2 * math.pi * r
        contour.points = [(c.x - r, c.y - r), (c.x + r, c.y + r)]
        return contour
    if entity.dxftype() == "POLYLINE":
        corners = [(v.dxf.location.x, v.dxf.location.y, v.dxf.get("bulge", 0)) for v in entity.vertices]
    else:
        corners = list(entity.get_points("xyb"))
    for i, (x, y, bulge) in enumerate(corners):
        nx, ny, _ = corners[(i + 1) % len(corners)]
        if bulge == 0:
            contour.add_line((x, y), (nx, ny))
        else:
            contour.add_arc((x, y), (nx, ny), bulge)
    contour.area = abs(contour.area)
    return contour


def audit(path):
    doc = ezdxf.readfile(path)
    found = []
    auditor = Auditor(doc)
    auditor.run()
    found += [f"auditor: {e.message}" for e in auditor.errors + auditor.fixes]
    _, repairs = recover.readfile(path)
    found += [f"reading with repair: {e.message}" for e in repairs.errors + repairs.fixes]
    return doc, found


def notes_of(doc):
    return " ".join(e.dxf.text for e in doc.modelspace() if e.dxf.layer == "NOTE")


def unit_of(doc):
    """"mm" or "in" of a drawing, None if it contradicts itself."""
    said = "in" if "drawn 1:1 in inches" in notes_of(doc) else "mm" if "1:1 in millimetres" in notes_of(doc) else None
    if doc.dxfversion == "AC1009":  # its header has no unit
        return said
    header = (doc.header.get("$INSUNITS"), doc.header.get("$MEASUREMENT"))
    return said if header == {"mm": (4, 1), "in": (1, 0)}.get(said) else None


def rules(doc):
    found = []
    if unit_of(doc) is None:
        found.append("header and note do not say one unit")
    for layer in doc.layers:
        if layer.dxf.color != COLOUR:
            found.append(f"layer {layer.dxf.name} has colour {layer.dxf.color}")
    used = {e.dxf.layer for e in doc.modelspace()} | {"0"}
    found += [f"nothing lies on layer {layer.dxf.name}" for layer in doc.layers
              if layer.dxf.name not in used | ADDED_ON_READING]
    seen = set()
    for e in doc.modelspace():
        if e.dxftype() not in ALLOWED.get(e.dxf.layer, set()):
            found.append(f"{e.dxftype()} on layer {e.dxf.layer}")
        if e.dxf.get("color", BY_LAYER) != BY_LAYER:
            found.append(f"{e.dxftype()} has a colour of its own")
        if e.dxftype() in ("LWPOLYLINE", "POLYLINE") and not (e.closed if e.dxftype() == "LWPOLYLINE" else e.is_closed):
            found.append("an open polyline")
        if e.dxf.layer == "CUT":
            place = tuple(round(v, 4) for v in extents([contour_of(e)]))
            if (e.dxftype(), place) in seen:
                found.append(f"two contours on one place: {place}")
            seen.add((e.dxftype(), place))
    return found


def extents(contours):
    xs = [p[0] for c in contours for p in c.points]
    ys = [p[1] for c in contours for p in c.points]
    return min(xs), min(ys), max(xs), max(ys)


def compare(doc, row):
    cut = [e for e in doc.modelspace() if e.dxf.layer == "CUT"]
    if not cut:
        return ["nothing is cut"]
    contours = [contour_of(e) for e in cut]
    drawn = {"mm": 1, "in": INCH}[unit_of(doc) or "mm"]  # millimetres in a unit of the drawing
    unit = "in" if "width in" in row else "mm"           # of the list
    listed = {"mm": 1, "in": INCH}[unit]
    x0, y0, x1, y1 = (drawn * v for v in extents(contours))
    areas = sorted(drawn**2 * c.area for c in contours)
    length = drawn * sum(c.length for c in contours)
    narrowest = min((drawn * min(e[2] - e[0], e[3] - e[1]) for e in (extents([c]) for c in contours[:-1])), default=0)
    quantity = int(row["quantity"])
    area = areas[-1] - sum(areas[:-1])
    density = 1e-9 * 7850  # of steel, EN 1991-1-1 table A.4: 77.0 to 78.5 kN/m3
    mass = density * listed * float(row[f"thickness {unit}"]) * (area - drilled_area(row))
    steel = row["material"].startswith("S")
    pound = 0.45359237 if unit == "in" else 1
    measured = {
        f"width {unit}": (x1 - x0, LIST_LENGTH[unit], listed),
        f"height {unit}": (y1 - y0, LIST_LENGTH[unit], listed),
        f"area {unit}2": (area, LIST_AREA[unit] + 2e-6 * length, listed**2),
        f"cut length {unit}": (length, 2 * LIST_LENGTH[unit], listed),
        f"cut length {unit} total": (quantity * length, 2 * quantity * LIST_LENGTH[unit], listed),
        f"narrowest cut-out {unit}": (narrowest, LIST_LENGTH[unit], listed),
        "piercings": (len(contours), 0, 1),
        "holes cut": (len(contours) - 1, 0, 1),
        "drilled holes": (crosses(doc, drawn), 0, 1),
    }
    mass_unit = "lb" if unit == "in" else "kg"
    if steel:
        measured[f"mass {mass_unit} each"] = (mass, 0.00051 * pound + 1e-3 * mass, pound)
        measured[f"mass {mass_unit} total"] = (quantity * mass, 0.00051 * pound + 1e-3 * quantity * mass, pound)
    found = [f"{name} is {value:.6f}, the list says {row[name]}" for name, (value, by, factor) in measured.items()
             if abs(value - factor * float(row[name] or 0)) > by]
    if max(abs(x0), abs(y0)) > 1e-6:
        found.append(f"the lower left is at {x0:.6f}, {y0:.6f}")
    box = bbox.extents(cut, flatten=0.001)  # a second opinion: arcs as chords within 0.001 mm
    if max(abs(drawn * box.extmin.x - x0), abs(drawn * box.extmin.y - y0), abs(drawn * box.extmax.x - x1),
           abs(drawn * box.extmax.y - y1)) > 0.002 * drawn:
        found.append(f"ezdxf's own extents are {box}")
    notes = notes_of(doc)
    thickness = [f"{row[f'thickness {unit}']} {unit}"] if drawn == listed else []  # the list is in other units
    for word in (row["mark"], row["material"], *thickness, row["job"], f"revision {row['revision']}", row["spec"]):
        if word not in notes:
            found.append(f"no note says {word}")
    return found


def crosses(doc, drawn):
    """Places to drill: a level and an upright line of MARK of one length, no longer than 3 mm, about one middle. What
    else is marked is longer or no cross."""
    middles = {"level": [], "upright": []}
    for e in doc.modelspace():
        if e.dxf.layer != "MARK":
            continue
        (ax, ay), (bx, by) = ((drawn * p.x, drawn * p.y) for p in (e.dxf.start, e.dxf.end))
        length = math.hypot(bx - ax, by - ay)
        if length > 3.01 or (abs(by - ay) > 1e-3 and abs(bx - ax) > 1e-3):
            continue
        middles["level" if abs(by - ay) <= 1e-3 else "upright"].append(((ax + bx) / 2, (ay + by) / 2, length))
    return sum(any(max(abs(a - b) for a, b in zip(level, upright)) < 1e-3 for upright in middles["upright"])
               for level in middles["level"])


def drilled_area(row):
    """Of what is drilled afterwards, from the list's words: "mark 2 centres, drill 3.3, tap M4"."""
    area = 0.0
    for count, drill in re.findall(r"mark (?:the|(\d+)) centres?, drill ([^,]+),", row["after cutting"]):
        area += int(count or 1) * math.pi / 4 * drill_mm(drill) ** 2
    return area


def drill_mm(words):
    """3.3, "3.3 mm", "#7 (0.201 in)", "5/16 in" or "1-1/8 in", in millimetres."""
    inches = re.search(r"\(([0-9.]+) in\)", words)
    if inches:
        return 25.4 * float(inches.group(1))
    if words.endswith(" in"):
        return 25.4 * float(sum(fractions.Fraction(part) for part in words[:-3].split("-")))
    return float(words.removesuffix(" mm"))


def main():
    job = pathlib.Path(sys.argv[1])
    with open(job / "flat" / "order.csv", newline="", encoding="utf-8") as f:
        rows = list(csv.DictReader(f))
    found = []
    for row in rows:
        doc, flaws = audit(job / row["file"])
        found += [f"{row['file']}: {flaw}" for flaw in flaws + rules(doc) + compare(doc, row)]
    unlisted = {p.relative_to(job).as_posix() for p in job.glob("flat/**/*.dxf")} - {row["file"] for row in rows}
    found += [f"{path}: not in order.csv" for path in sorted(unlisted)]
    print("\n".join(found) if found else f"{len(rows)} DXF files, nothing found")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
