#!/usr/bin/python3
"""Judges every STL file of a job folder with admesh.

judge_stl.py JOBDIR    reads JOBDIR/3d-print/list.csv; exit status 0: nothing found, 1: found, printed.

For each row: 80 bytes that do not begin with "solid", a count, 50 bytes a facet; admesh finds one closed part and
nothing to mend; its size and volume are those of the list.
"""
import csv
import os
import pathlib
import re
import struct
import subprocess
import sys

# admesh prints "original" and "repaired" counts in one line, or one count.
MUST_BE_ZERO = ("Total disconnected facets", "Degenerate facets", "Edges fixed", "Facets removed", "Facets added",
                "Facets reversed", "Backwards edges", "Normals fixed")


def numbers_after(text, label):
    match = re.search(re.escape(label) + r"\s*:\s*([-0-9.eE+ ]+)", text)
    return [float(n) for n in match.group(1).split()] if match else None


def form(data):
    found = []
    if data[:5] == b"solid":
        found.append("the header begins with 'solid'")
    count = struct.unpack("<I", data[80:84])[0] if len(data) >= 84 else -1
    if len(data) != 84 + 50 * count:
        found.append(f"{len(data)} bytes, not 84 + 50 x {count}")
    return found


def compare(text, row):
    found = []
    for label in MUST_BE_ZERO:
        counts = numbers_after(text, label)
        if counts is None or any(counts):
            found.append(f"admesh: {label}: {counts}")
    if numbers_after(text, "Number of parts") != [1.0]:
        found.append(f"admesh: parts: {numbers_after(text, 'Number of parts')}")
    for axis in "XYZ":
        low, high = (float(v) for v in re.search(rf"Min {axis} = +(\S+), Max {axis} = +(\S+)", text).groups())
        key = f"size {axis.lower()}"
        listed = float(row[f"{key} mm"]) if f"{key} mm" in row else 25.4 * float(row[f"{key} in"])
        if abs(high - low - listed) > 0.02 + 1e-5 * listed:  # the mesh stands off round surfaces by 0.02 mm at most
            found.append(f"size {axis} is {high - low:.4f} mm, the list says {listed}")
    volume = numbers_after(text, "Volume")[0]
    listed = 1000 * float(row["volume cm3"]) if "volume cm3" in row else 25.4**3 * float(row["volume in3"])
    if abs(volume - listed) > 6 + 0.01 * listed:
        found.append(f"volume is {volume:.1f} mm3, the list says {listed:.1f}")
    return found


def judge(path, row):
    found = form(path.read_bytes())
    run = subprocess.run(["admesh", str(path)], capture_output=True, text=True, check=False, timeout=60,
                         env={**os.environ, "LC_ALL": "C"})
    if run.returncode != 0:
        return found + [f"admesh ended with {run.returncode}: {run.stderr.strip()}"]
    return found + compare(run.stdout, row)


def main():
    job = pathlib.Path(sys.argv[1])
    with open(job / "3d-print" / "list.csv", newline="", encoding="utf-8") as f:
        rows = list(csv.DictReader(f))
    found = []
    for row in rows:
        found += [f"{row['file']}: {flaw}" for flaw in judge(job / row["file"], row)]
    unlisted = {p.relative_to(job).as_posix() for p in job.glob("3d-print/*.stl")} - {row["file"] for row in rows}
    found += [f"{path}: not in list.csv" for path in sorted(unlisted)]
    print("\n".join(found) if found else f"{len(rows)} STL files, nothing found")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
