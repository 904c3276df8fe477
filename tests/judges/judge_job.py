#!/usr/bin/python3
"""Judges the list of a job folder: every file is listed with its size and its SHA-256 (by hashlib), and nothing
else is there; the picture is well-formed XML.

judge_job.py JOBDIR    exit status 0: nothing found, 1: found, printed.
"""
import hashlib
import json
import pathlib
import sys
import xml.etree.ElementTree


def main():
    job = pathlib.Path(sys.argv[1])
    listed = {f["path"]: f for f in json.loads((job / "job.json").read_text(encoding="utf-8"))["files"]}
    there = {p.relative_to(job).as_posix() for p in job.rglob("*") if p.is_file()} - {"job.json"}
    found = [f"{path}: listed, not there" for path in sorted(listed.keys() - there)]
    found += [f"{path}: there, not listed" for path in sorted(there - listed.keys())]
    for path in sorted(there & listed.keys()):
        data = (job / path).read_bytes()
        if len(data) != listed[path]["size"]:
            found.append(f"{path}: {len(data)} bytes, listed with {listed[path]['size']}")
        if hashlib.sha256(data).hexdigest() != listed[path]["sha256"]:
            found.append(f"{path}: another hash than listed")
        if path.endswith(".svg"):
            xml.etree.ElementTree.fromstring(data)
    print("\n".join(found) if found else f"{len(there)} files, nothing found")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
