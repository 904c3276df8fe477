#!/usr/bin/python3
"""Judges every 3MF file of a job folder with the standard library alone.

judge_3mf.py JOBDIR    exit status 0: nothing found, 1: found, printed.

Each is a package of the Open Packaging Conventions (zipfile finds nothing damaged; content types and a relationship
lead to the model) and keeps the rules of the 3MF Core Specification 1.2 (chapters 3 and 4): unit millimetre, one object
of type model that the build names, indices in range and three different ones in a triangle, each edge shared by two
triangles that run it in opposite ways (4.1.3: manifold and oriented), volume positive, no vertex below zero. Beside it
stands an STL of the same size and volume.
"""
import json
import pathlib
import struct
import sys
import xml.etree.ElementTree as ET
import zipfile

CORE = "{http://schemas.microsoft.com/3dmanufacturing/core/2015/02}"
MODEL_TYPE = "application/vnd.ms-package.3dmanufacturing-3dmodel+xml"
RELATION = "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"


def volume_of(triangles):
    total = 0.0
    for a, b, c in triangles:
        total += (a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2])
                  + a[2] * (b[0] * c[1] - b[1] * c[0])) / 6
    return total


def size_of(triangles):
    points = [p for t in triangles for p in t]
    return [max(p[k] for p in points) - min(p[k] for p in points) for k in range(3)]


def stl_triangles(path):
    data = path.read_bytes()
    count = struct.unpack("<I", data[80:84])[0]
    for i in range(count):
        numbers = struct.unpack("<12f", data[84 + 50 * i:132 + 50 * i])
        yield [numbers[3:6], numbers[6:9], numbers[9:12]]


def package(archive):
    found = [f"damaged: {name}" for name in [archive.testzip()] if name]
    types = ET.fromstring(archive.read("[Content_Types].xml"))
    if MODEL_TYPE not in [t.get("ContentType") for t in types if t.get("Extension") == "model"]:
        found.append("the content type of the model is not said")
    relations = ET.fromstring(archive.read("_rels/.rels"))
    targets = [r.get("Target") for r in relations if r.get("Type") == RELATION]
    if targets != ["/3D/3dmodel.model"] or targets[0][1:] not in archive.namelist():
        found.append(f"the relationship leads to {targets}")
    if any(info.date_time != (1980, 0, 0, 0, 0, 0) for info in archive.infolist()):
        found.append("a file carries the time at which it was made")
    return found


def edges_of(triangles):
    uses = {}
    for t in triangles:
        for k in range(3):
            edge = (t[k], t[(k + 1) % 3])
            uses[edge] = uses.get(edge, 0) + 1
    return uses


def model(root, job):
    found = []
    if root.tag != CORE + "model" or root.get("unit") != "millimeter":
        found.append(f"the model is a {root.tag} in {root.get('unit')}")
    about = {m.get("name"): m.text for m in root.findall(CORE + "metadata")}
    if job["spec"] not in about.get("Description", "") or f"revision {job['revision']}" not in about["Description"]:
        found.append(f"it is described as {about.get('Description')}")
    objects = root.findall(f"{CORE}resources/{CORE}object")
    items = root.findall(f"{CORE}build/{CORE}item")
    if len(objects) != 1 or [i.get("objectid") for i in items] != [objects[0].get("id")]:
        return found + ["there is not one object that is built"], []
    if objects[0].get("type") != "model" or not objects[0].get("name"):
        found.append("the object has no type or no name")
    vertices = [tuple(float(v.get(k)) for k in "xyz") for v in objects[0].iter(CORE + "vertex")]
    triangles = [tuple(int(t.get(k)) for k in ("v1", "v2", "v3")) for t in objects[0].iter(CORE + "triangle")]
    if any(min(v) < 0 for v in vertices):
        found.append("a vertex lies below zero")
    if len(vertices) < 4 or len(triangles) < 4 or any(len(set(t)) != 3 for t in triangles):
        return found + ["too few vertices or triangles, or a triangle with one corner twice"], []
    if len(set(vertices)) != len(vertices):
        found.append("two vertices on one place")
    uses = edges_of(triangles)
    if any(count != 1 or uses.get((b, a)) != 1 for (a, b), count in uses.items()):
        found.append("the mesh is not closed and oriented")
    return found, [[vertices[i] for i in t] for t in triangles]


def judge(path, job):
    with zipfile.ZipFile(path) as archive:
        found = package(archive)
        flaws, triangles = model(ET.fromstring(archive.read("3D/3dmodel.model")), job)
    if not triangles:
        return found + flaws
    beside = list(stl_triangles(path.with_suffix(".stl")))
    volume, other = volume_of(triangles), volume_of(beside)
    if volume <= 0 or abs(volume - other) > 1e-4 * other + 0.01:
        flaws.append(f"its volume is {volume:.3f} mm3, the STL's {other:.3f} mm3")
    if any(abs(a - b) > 1e-3 for a, b in zip(size_of(triangles), size_of(beside))):
        flaws.append(f"its size is {size_of(triangles)}, the STL's {size_of(beside)}")
    return found + flaws


def main():
    folder = pathlib.Path(sys.argv[1])
    about = json.loads((folder / "job.json").read_text(encoding="utf-8"))
    job = {"spec": about["spec_hash"][:12], "revision": about["revision"]}
    files = sorted(folder.glob("3d-print/*.3mf"))
    found = [f"{path.name}: {flaw}" for path in files for flaw in judge(path, job)]
    alone = {p.stem for p in folder.glob("3d-print/*.stl")} ^ {p.stem for p in files}
    found += [f"{name}: in one of the two forms alone" for name in sorted(alone)]
    print("\n".join(found) if found else f"{len(files)} 3MF files, nothing found")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
