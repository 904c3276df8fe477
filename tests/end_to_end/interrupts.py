#!/usr/bin/env python3
"""Interrupts the program at moments drawn by lot, and looks at what it leaves.

interrupts.py FITUP EXAMPLES [--rounds N] [--seed N] [--most SECONDS]
Each command ends with status 130 and says so, or has done all that it does without the interrupt; a job folder is the
old one or the new one, whole, nothing stands beside it, and no process goes on. With --most it also fails where it took
longer than that from the interrupt to the end.
"""

import argparse
import json
import os
import random
import select
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

INTERRUPTED = 130
KILLED = -signal.SIGINT  # before the program had taken the signal over: nothing had begun
GONE_WITHIN_S = 20       # a process that goes on; not a measure of speed


def files_below(folder):
    return {str(p.relative_to(folder)): p.read_bytes() for p in folder.rglob("*") if p.is_file()} if folder else {}


class Run:
    """One run, with a pipe that stays open as long as any process of it lives."""

    def __init__(self, command):
        self.alive, inherited = os.pipe()
        environment = {**os.environ, "SOURCE_DATE_EPOCH": "0"}
        self.process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
                                        pass_fds=[inherited], env=environment)
        os.close(inherited)

    def end(self):
        """Exit status, standard output and whether every process of it has ended."""
        output, _ = self.process.communicate()
        gone = bool(select.select([self.alive], [], [], GONE_WITHIN_S)[0])
        os.close(self.alive)
        return self.process.returncode, output, gone


class Watched:
    """A command, and what it leaves when nothing disturbs it."""

    def __init__(self, name, command, folder, before):
        self.name, self.command, self.folder, self.before = name, command, folder, before

    def reset(self):
        """As it was before the command: made by another run of the program."""
        if self.before:
            subprocess.run(self.before, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=True)

    def learn(self):
        self.reset()
        self.old = files_below(self.folder)
        start = time.monotonic()
        self.status, _, _ = Run(self.command).end()
        self.seconds = time.monotonic() - start
        self.new = files_below(self.folder)

    def interrupted(self, after_s):
        """What is wrong, the exit status, and seconds from the interrupt to the end."""
        self.reset()
        run = Run(self.command)
        time.sleep(after_s)
        sent = time.monotonic()
        run.process.send_signal(signal.SIGINT)
        status, output, gone = run.end()
        took = time.monotonic() - sent
        return self.wrong(status, output, gone), status, took

    def wrong(self, status, output, gone):
        faults = []
        if status not in (INTERRUPTED, KILLED, self.status):
            faults.append(f"status {status}")
        if not gone:
            faults.append("a process of it goes on")
        if status == INTERRUPTED and json.loads(output)["verdict"] != "interrupted":
            faults.append("the verdict is " + str(json.loads(output)["verdict"]))
        if self.folder:
            left = files_below(self.folder)
            if left != (self.new if status == self.status else self.old) and not self.is_partly(left):
                faults.append("the folder is neither as it was nor as it is to be")
            beside = [p.name for p in self.folder.parent.iterdir() if p.name.startswith(".") and ".new-" in p.name]
            if beside:
                faults.append("left beside it: " + ", ".join(beside))
        return faults

    def is_partly(self, left):
        """Of several jobs some may be new, each of them whole."""
        jobs = {name.split("/")[0] for name in self.old if "/" in name} if self.name == "make of two" else set()
        part = lambda files, job: {name: data for name, data in files.items() if name.startswith(job + "/")}
        return bool(jobs) and all(part(left, job) in (part(self.old, job), part(self.new, job)) for job in jobs)


def watched(fitup, examples, scratch):
    demo = str(examples / "park-locomotive/front-box.toml")
    rear = str(examples / "park-locomotive/rear-box.toml")
    one, two, seen = scratch / "one/job", scratch / "two/jobs", scratch / "seen/job"
    changed = ["--set", "gap=13"]
    make = lambda specs, folder: [fitup, "make", *specs, "-o", str(folder), "--json", "--quiet"]
    subprocess.run(make([demo], seen), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=True)
    step = str(seen / "assembly.step")
    dxf = sorted(str(p) for p in seen.glob("flat/*/*.dxf"))
    stl = sorted(str(p) for p in seen.glob("3d-print/*.stl"))
    return [
        Watched("make", make([demo], one) + changed, one, make([demo], one)),
        Watched("make of two", make([demo, rear], two) + changed, two, make([demo, rear], two)),
        Watched("check", [fitup, "check", demo, "--json", "--set", "box.main.clearance.back=30"], None, None),
        Watched("inspect", [fitup, "inspect", step, *dxf, *stl, "--json"], None, None),
    ]


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("fitup")
    parser.add_argument("examples", type=Path)
    parser.add_argument("--rounds", type=int, default=6)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--most", type=float)
    given = parser.parse_args()
    by_lot = random.Random(given.seed)
    print(f"seed {given.seed}")
    failed = False
    with tempfile.TemporaryDirectory() as folder:
        for command in watched(given.fitup, given.examples, Path(folder)):
            command.learn()
            worst, stopped = 0, 0
            for _ in range(given.rounds):
                after = by_lot.uniform(0.02, command.seconds)
                faults, status, took = command.interrupted(after)
                stopped += status == INTERRUPTED
                worst = max(worst, took)
                late = given.most is not None and took > given.most
                for fault in faults + ([f"took {took:.2f} s"] if late else []):
                    print(f"{command.name}, interrupted after {after:.3f} s: {fault}")
                    failed = True
            print(f"{command.name}: {command.seconds:.2f} s undisturbed; {given.rounds} interrupts, {stopped} of them "
                  f"stopped it, the slowest after {worst:.3f} s", flush=True)
            failed = failed or stopped == 0
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
