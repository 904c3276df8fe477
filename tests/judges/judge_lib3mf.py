#!/usr/bin/python3
"""Judges every 3MF file of a job folder with lib3mf, the 3MF Consortium's own reader (Debian: lib3mf1), through its C interface.

judge_lib3mf.py JOBDIR    exit status 0: nothing found, 1: found, printed.

Each must be read without a warning, be in millimetres, build one object whose name begins with the part's mark and that lib3mf
holds for a valid, closed and oriented mesh, of the volume and the size of the STL beside it.
"""
import ctypes
import pathlib
import sys

from judge_3mf import size_of, stl_triangles, volume_of

MILLIMETRES = 1  # eModelUnit of lib3mf


class Lib3mf:
    """The functions that are used here; each answers 0 where it succeeds."""

    def __init__(self):
        self.library = ctypes.CDLL("lib3MF.so.1")

    def do(self, name, *arguments):
        status = getattr(self.library, "lib3mf_" + name)(*arguments)
        if status != 0:
            raise RuntimeError(f"lib3mf_{name} answers {status & 0xFFFFFFFF:#x}")

    def get(self, name, kind, *arguments):
        out = kind()
        self.do(name, *arguments, ctypes.byref(out))
        return out if kind is ctypes.c_void_p else out.value

    def name_of(self, thing):
        buffer = ctypes.create_string_buffer(1024)
        self.do("object_getnameutf8", thing, buffer, ctypes.c_ulong(len(buffer)), ctypes.byref(ctypes.c_ulong()))
        return buffer.value.decode("utf-8")

    def all_of(self, kind, iterator, getter):
        found = []
        while self.get(kind + "_movenext", ctypes.c_int, iterator):
            found.append(self.get(getter, ctypes.c_void_p, iterator))
        return found

    def triangles_of(self, mesh):
        vertex, triangle = (ctypes.c_float * 3)(), (ctypes.c_uint32 * 3)()
        points = []
        for i in range(self.get("meshobject_getvertexcount", ctypes.c_uint32, mesh)):
            self.do("meshobject_getvertex", mesh, i, ctypes.byref(vertex))
            points.append(tuple(vertex))
        triangles = []
        for i in range(self.get("meshobject_gettrianglecount", ctypes.c_uint32, mesh)):
            self.do("meshobject_gettriangle", mesh, i, ctypes.byref(triangle))
            triangles.append([points[k] for k in triangle])
        return triangles


def judge(lib, path):
    model = lib.get("createmodel", ctypes.c_void_p)
    reader = lib.get("model_queryreader", ctypes.c_void_p, model, b"3mf")
    lib.do("reader_readfromfileutf8", reader, str(path).encode("utf-8"))
    found = []
    warnings = lib.get("reader_getwarningcount", ctypes.c_uint32, reader)
    if warnings:
        found.append(f"lib3mf warns {warnings} times")
    if lib.get("model_getunit", ctypes.c_uint32, model) != MILLIMETRES:
        found.append("it is not in millimetres")
    meshes = lib.all_of("resourceiterator", lib.get("model_getmeshobjects", ctypes.c_void_p, model),
                        "resourceiterator_getcurrent")
    items = lib.all_of("builditemiterator", lib.get("model_getbuilditems", ctypes.c_void_p, model),
                       "builditemiterator_getcurrent")
    if len(meshes) != 1 or len(items) != 1:
        return found + [f"it holds {len(meshes)} meshes and builds {len(items)}"]
    name = lib.name_of(meshes[0])
    if not name.startswith(path.name.split("_")[0]):
        found.append(f"its object is named {name!r}")
    if lib.name_of(lib.get("builditem_getobjectresource", ctypes.c_void_p, items[0])) != name:
        found.append("what is built is not its mesh")
    if not lib.get("object_isvalidobject", ctypes.c_int, meshes[0]):
        found.append("lib3mf does not hold its object for valid")
    if not lib.get("meshobject_ismanifoldandoriented", ctypes.c_int, meshes[0]):
        found.append("the mesh is not closed and oriented")
    triangles, beside = lib.triangles_of(meshes[0]), list(stl_triangles(path.with_suffix(".stl")))
    volume, other = volume_of(triangles), volume_of(beside)
    if volume <= 0 or abs(volume - other) > 1e-4 * other + 0.01:
        found.append(f"its volume is {volume:.3f} mm3, the STL's {other:.3f} mm3")
    if any(abs(a - b) > 1e-3 for a, b in zip(size_of(triangles), size_of(beside))):
        found.append(f"its size is {size_of(triangles)}, the STL's {size_of(beside)}")
    return found


def main():
    files = sorted(pathlib.Path(sys.argv[1]).glob("3d-print/*.3mf"))
    lib = Lib3mf()
    found = [f"{path.name}: {flaw}" for path in files for flaw in judge(lib, path)]
    print("\n".join(found) if found else f"{len(files)} 3MF files, nothing found")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
