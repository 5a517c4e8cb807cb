#!/usr/bin/env python3
"""Changes the source in small ways, one at a time, in a copy of the tree, and sees whether the tests notice.

    python3 tests/mutate/run.py                 every mutant of the sample that has no result yet; some hours
    python3 tests/mutate/run.py --again         those that survived, with the tests as they are now
    python3 tests/mutate/run.py --table         what is known, as tables

The sample is the same for the same source and seed. docs/development/mutation.md says what came of it.
"""

import argparse
import collections
import csv
import itertools
import os
import pathlib
import re
import resource
import signal
import subprocess
import sys
import time

import mutants

ROOT = pathlib.Path(__file__).resolve().parents[2]
FIELDS = ["outcome", "by", "seconds"]
# A browser takes more memory than a mutant may.
QUICK = ["~[long]", "~in a browser *"]
LONG = ["[long]", "~*on random harnesses and faults*", "~*enumeration gives*"]  # without ten minutes of it
Result = collections.namedtuple("Result", mutants.Mutant._fields + tuple(FIELDS))


def limited(processor_seconds):
    """What a mutant may take: one that loops or eats memory is ended, and counts as noticed."""
    def limit():
        resource.setrlimit(resource.RLIMIT_CPU, (processor_seconds, processor_seconds + 1))
        resource.setrlimit(resource.RLIMIT_AS, (6 << 30, 6 << 30))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    return limit


def run(command, folder, processor_seconds):
    """Exit code (None: out of time) and output. Waits, on a busy machine, ten times as long as it may compute."""
    process = subprocess.Popen(command, cwd=folder, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True,
                               errors="replace", start_new_session=True, stdin=subprocess.DEVNULL,
                               preexec_fn=limited(processor_seconds))
    try:
        output = process.communicate(timeout=10 * processor_seconds)[0]
    except subprocess.TimeoutExpired:
        output = None
    try:
        os.killpg(process.pid, signal.SIGKILL)
    except ProcessLookupError:
        pass
    process.wait()
    if output is None or process.returncode in (-signal.SIGXCPU, -signal.SIGKILL):
        return None, output or ""
    return process.returncode, output


class Bench:
    """A copy of the tree with a build of its own."""

    def __init__(self, tree, build, long):
        self.tree, self.build, self.long = tree, build, long
        self.needed, self.lists = {}, {}

    def prepare(self):
        if not (self.build / "CMakeCache.txt").exists():
            subprocess.run(["cmake", "-S", self.tree, "-B", self.build, "-G", "Ninja", "-DHALFSPLIT_STRICT=ON",
                            "-DCMAKE_BUILD_TYPE=None", "-DCMAKE_CXX_FLAGS=-O1"], check=True,
                           stdout=subprocess.DEVNULL)
        code, output = self.compile()
        if code != 0:
            sys.exit("The source as it is does not compile:\n" + output)

    def compile(self):
        command = ["ninja", "-C", str(self.build), "-j2", "halfsplit", "halfsplit_tests"]
        return run(command, self.tree, 3600)

    def stages(self, file):
        """The cases of the layer first, for they are the likeliest to notice; then what is quick; then the others."""
        layer = pathlib.Path(file).parts[1]
        names = sorted(path.stem for path in (self.tree / "tests" / layer).glob("*_test.cpp"))
        result = {layer: [",".join(f"[#{name}]~[long]" for name in names)]}
        result.update({name: ["--input-file", str(path)] for name, path in self.lists.items()})
        return {**result, **({"long": LONG} if self.long else {})}

    def sort_cases(self):
        """Lists of the quick and of the slow cases, by what each takes while nothing is changed."""
        output = run([str(self.build / "tests" / "halfsplit_tests"), "--durations", "yes", *QUICK], self.build, 1200)[1]
        cases = re.findall(r"^(\d+\.\d+) s: (.*)$", output, re.MULTILINE)
        for name, kept in ("quick", lambda seconds: seconds <= 0.4), ("slow", lambda seconds: seconds > 0.4):
            self.lists[name] = self.build / f"{name}_cases.txt"
            lines = [escaped(case) for seconds, case in cases if kept(float(seconds))]
            self.lists[name].write_text("\n".join(lines) + "\n")

    def test(self, stage, cases):
        """None, or what noticed."""
        command = [str(self.build / "tests" / "halfsplit_tests"), "-#", "--abort", *cases]
        code, output = run(command, self.build, self.needed[stage])
        if code == 0:
            return None
        return "out of time" if code is None else first_failure(output, code)

    def measure(self, stages):
        """Allows each stage several times what the source as it is needs; which has to pass."""
        missing = {stage: cases for stage, cases in stages.items() if stage not in self.needed}
        if missing:
            self.prepare()
        for stage, cases in missing.items():
            self.needed[stage] = 1200  # for this once
            before = os.times()
            noticed = self.test(stage, cases)
            after = os.times()
            if noticed:
                sys.exit(f"The tests do not pass before anything is changed: {noticed}")
            used = after.children_user + after.children_system - before.children_user - before.children_system
            self.needed[stage] = int(20 + 4 * used)
            print(f"{stage}: {used:.0f} s", flush=True)


def escaped(case):
    """A name as the test library takes it."""
    return re.sub(r"([\\,\[\]\"])", r"\\\1", case)


def first_failure(output, code):
    lines = output.splitlines()
    for position, line in enumerate(lines):
        if line.startswith("-----") and position + 1 < len(lines) and not lines[position + 1].startswith("-----"):
            return lines[position + 1].strip()
    return f"exit code {code}"


def judged(bench, mutant):
    """Applies a mutant, sees what notices, takes it back."""
    began = time.time()
    path = bench.tree / mutant.file
    text = path.read_text()
    lines = text.split("\n")
    if lines[mutant.line - 1] != mutant.before:
        return Result(*mutant, "stale", "the line is another one now", 0)
    lines[mutant.line - 1] = mutant.after
    stages = bench.stages(mutant.file)
    bench.measure(stages)
    try:
        path.write_text("\n".join(lines))
        outcome, by = "survived", ""
        if bench.compile()[0] != 0:
            outcome = "not compiled"
        else:
            for stage, cases in stages.items():
                by = bench.test(stage, cases)
                if by:
                    outcome = f"killed by {stage}"
                    break
    finally:
        path.write_text(text)
    return Result(*mutant, outcome, by or "", round(time.time() - began))


def read_results(path):
    if not path.exists():
        return []
    with path.open(newline="") as file:
        return [Result(**{**row, "line": int(row["line"])}) for row in csv.DictReader(file, delimiter="\t")]


def write_results(path, results):
    with path.open("w", newline="") as file:
        writer = csv.writer(file, delimiter="\t", lineterminator="\n")
        writer.writerow(Result._fields)
        writer.writerows(results)


def table(results):
    folders = collections.defaultdict(collections.Counter)
    for result in results:
        outcome = result.outcome.split()[0]
        folders[str(pathlib.Path(result.file).parent)][outcome] += 1
        folders["all"][outcome] += 1
    print("| folder | mutants | not compiling | killed | survived |\n|---|---|---|---|---|")
    for folder, count in sorted(folders.items(), key=lambda item: (item[0] == "all", item[0])):
        print(f"| `{folder}` | {count.total()} | {count['not']} | {count['killed']} | {count['survived']} |")
    for result in results:
        if result.outcome == "survived":
            print(f"\n{result.file}:{result.line} {result.kind}\n-{result.before.strip()}\n+{result.after.strip()}")


def main():
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("--count", type=int, default=46, help="mutants of each of " + ", ".join(mutants.GROUPS))
    options.add_argument("--share", default="1/1", help="the first half of it: 1/2")
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--tree", type=pathlib.Path, help="a copy of the tree to change; else one is made")
    options.add_argument("--results", type=pathlib.Path, default=ROOT / ".build/mutate/results.tsv")
    options.add_argument("--again", action="store_true", help="those that survived")
    options.add_argument("--long", action="store_true", help="with the cases tagged [long], but for the longest")
    options.add_argument("--table", action="store_true", help="only tell what is known")
    options.add_argument("--list", action="store_true", help="only tell what would be changed")
    given = options.parse_args()
    known = read_results(given.results)
    if given.table:
        return table(known)
    tree = given.tree or (ROOT if given.list else copied_tree())
    samples = [mutants.sample(tree, group, given.count, given.seed) for group in mutants.GROUPS]
    wanted = [one for turn in itertools.zip_longest(*samples) for one in turn if one]
    share, shares = map(int, given.share.split("/"))
    wanted = wanted[share - 1::shares]
    if given.list:
        return [print(f"{one.file}:{one.line} {one.kind}: {one.before.strip()} -> {one.after.strip()}")
                for one in wanted]
    run_all(given, tree, known, wanted)


def run_all(given, tree, known, wanted):
    given.results.parent.mkdir(parents=True, exist_ok=True)
    bench = Bench(tree, tree / ".build" / "dev", given.long)
    bench.prepare()
    bench.sort_cases()
    done = {one[:6]: one for one in known}
    for one in wanted:
        if tuple(one) in done and not (given.again and done[tuple(one)].outcome == "survived"):
            continue
        done[tuple(one)] = judged(bench, one)
        write_results(given.results, list(done.values()))
        print(*done[tuple(one)][1:4], *done[tuple(one)][6:], flush=True)
    bench.compile()
    table(list(done.values()))


def copied_tree():
    """The files under version control, as they are now; what has not changed keeps its time."""
    tree = ROOT / ".build" / "mutate" / "tree"
    tree.mkdir(parents=True, exist_ok=True)
    names = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, check=True, capture_output=True, text=True).stdout
    subprocess.run(["xargs", "-0", "cp", "-pu", "--parents", "-t", str(tree)], cwd=ROOT, input=names, check=True,
                   text=True)
    return tree


if __name__ == "__main__":
    main()
