"""What gcovr counted, by folder, and the files below 90 % of their lines: coverage_table.py SUMMARY.json"""

import collections
import json
import pathlib
import sys

COUNTS = ["line_covered", "line_total", "branch_covered", "branch_total"]


def share(covered, total):
    return f"{100 * covered / total:.1f} %" if total else "-"


files = json.load(open(sys.argv[1]))["files"]
folders = collections.defaultdict(lambda: [0] * len(COUNTS))
for file in files:
    path = pathlib.Path(file["filename"])
    layer = path.parts[path.parts.index("halfsplit") + 1 if path.parts[0] == "include" else 1]
    for name in (path.name if "." in layer else layer, "together"):
        folders[name] = [sum(pair) for pair in zip(folders[name], (file[count] for count in COUNTS))]
print("| folder | lines | covered | branches | covered |\n|---|---|---|---|---|")
for name, (lines, all_lines, branches, all_branches) in folders.items():
    print(f"| `{name}` | {all_lines} | {share(lines, all_lines)} | {all_branches} | {share(branches, all_branches)} |")
for file in files:
    if file["line_total"] and file["line_covered"] < 0.9 * file["line_total"]:
        print(f"{file['filename']}: {file['line_covered']} of {file['line_total']} lines")
