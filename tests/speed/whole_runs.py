"""Times whole runs of the program, and the bare kernel on the same files, turn and turn about in the same run.

python3 whole_runs.py FITUP BARE_KERNEL SPEC [ROUNDS]
Prints the figures and exits 1 if one misses its aim. Aims: `make --only step,dxf,stl` within 2 times what the kernel
needs to write and read back the same assembly and parts; --version, explain and a spec error within 60 ms; ten times
as many items in a row, if the spec counts some, within 12 times the time of `check` and of a whole `make`.
"""

import os
import re
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

QUICK_AIM_S = 0.060
RATIO_AIM = 2.0
TEN_TIMES_AIM = 12.0


def run(command, allowed):
    start = time.perf_counter()
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    seconds = time.perf_counter() - start
    if done.returncode not in allowed:
        sys.exit(f"{' '.join(map(str, command))} ended with {done.returncode}:\n{done.stdout}{done.stderr}")
    return seconds, done.stdout


def make_against_kernel(fitup, bare_kernel, spec, rounds, scratch):
    job = scratch / "job"
    make = [fitup, "make", spec, "-o", job, "--only", "step,dxf,stl", "--anyway", "--quiet"]
    ours, kernel, files = [], [], "?"
    for cores in ("1", str(os.cpu_count())):
        run([*make, "--cores", cores], {0, 1})  # warm: the first run reads the libraries from the disk
    for _ in range(rounds):
        ours.append((run([*make, "--cores", "1"], {0, 1})[0],
                     run([*make, "--cores", str(os.cpu_count())], {0, 1})[0]))
        seconds, files = run([bare_kernel, job, scratch / "copies"], {0})[1].split()
        kernel.append(float(seconds))
    return statistics.median(o[0] for o in ours), statistics.median(o[1] for o in ours), statistics.median(kernel), files


def quick_commands(fitup, spec, rounds):
    commands = {"--version": ([fitup, "--version"], {0}), "explain": ([fitup, "explain"], {0}),
                "a spec error": ([fitup, "check", spec, "--set", "printer.fit=1"], {2})}
    return {name: statistics.median(run(command, allowed)[0] for _ in range(4 * rounds))
            for name, (command, allowed) in commands.items()}


def ten_times_the_items(fitup, spec, rounds, scratch):
    """Ratio of times with ten times the count of the longest row, by command; None for a spec without a count."""
    text = Path(spec).read_text(encoding="utf-8")
    counts = [int(found) for found in re.findall(r"\bcount\s*=\s*(\d+)", text)]
    if not counts or max(counts) < 2:
        return None
    many = Path(spec).parent / f".ten-times-{os.getpid()}.toml"  # beside it, for what start_from names
    many.write_text(re.sub(rf"\bcount(\s*)=(\s*){max(counts)}\b", rf"count\1=\g<2>{10 * max(counts)}", text),
                    encoding="utf-8")
    ratios = {}
    try:
        for command in ("check", "make"):
            def seconds(which, place):
                folder = ["-o", scratch / place, "--anyway"] if command == "make" else []
                return run([fitup, command, which, *folder, "--quiet", "--cores", "1"], {0, 1})[0]
            few = statistics.median(seconds(spec, "few") for _ in range(rounds))
            ratios[command] = (min(seconds(many, "many") for _ in range(2)) / few, max(counts))
    finally:
        many.unlink()
    return ratios


def main():
    fitup, bare_kernel, spec = sys.argv[1:4]
    rounds = int(sys.argv[4]) if len(sys.argv) > 4 else 5
    missed = []
    with tempfile.TemporaryDirectory() as folder:
        one, all_cores, kernel, files = make_against_kernel(fitup, bare_kernel, spec, rounds, Path(folder))
        print(f"{os.cpu_count()} cores, medians of {rounds} rounds")
        print(f"bare kernel, {files} STEP files written and read back   {kernel:8.3f} s")
        for cores, seconds in ((1, one), (os.cpu_count(), all_cores)):
            print(f"make --only step,dxf,stl --cores {cores}               {seconds:8.3f} s   "
                  f"{seconds / kernel:.2f} times the bare kernel")
        if min(one, all_cores) > RATIO_AIM * kernel:
            missed.append(f"make takes more than {RATIO_AIM:g} times what the bare kernel takes")
        for name, seconds in quick_commands(fitup, spec, rounds).items():
            print(f"{name:46} {1000 * seconds:8.1f} ms")
            if seconds > QUICK_AIM_S:
                missed.append(f"{name} takes more than {1000 * QUICK_AIM_S:.0f} ms")
        for name, (ratio, count) in (ten_times_the_items(fitup, spec, rounds, Path(folder)) or {}).items():
            print(f"{name}, {10 * count} items in a row for {count:<21} {ratio:8.1f} times the time")
            if ratio > TEN_TIMES_AIM:
                missed.append(f"{name} of ten times the items takes more than {TEN_TIMES_AIM:g} times the time")
    for line in missed:
        print(f"MISSED: {line}")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
