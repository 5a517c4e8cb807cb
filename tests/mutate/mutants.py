"""Small changes of the source that a test should notice, and a fair sample of them.

A mutant is one change on one line. Candidates are found in the text, which clang-format has laid out (binary operators
stand between spaces, pointers do not), outside comments, strings and directives.
"""

import collections
import pathlib
import random
import re

# What the program stands or falls with. Headers are left out: one of them means many files to compile anew.
GROUPS = {
    "belief": ["src/diagnosis/*.cpp", "src/electrics/*.cpp"],
    "plan": ["src/plan/*.cpp", "src/advice/*.cpp", "src/advice/hindsight/*.cpp"],
    "log": ["src/job/*.cpp", "src/job/words/*.cpp", "src/base/files_posix.cpp", "src/base/file_failure.cpp",
            "src/base/digest_posix.cpp", "src/base/json_*.cpp"],
}

Mutant = collections.namedtuple("Mutant", "group file line kind before after")

SWAPS = [
    ("relation", r" < ", " <= "), ("relation", r" <= ", " < "), ("relation", r" > ", " >= "),
    ("relation", r" >= ", " > "), ("relation", r" == ", " != "), ("relation", r" != ", " == "),
    ("arithmetic", r"(?<!\") \+ (?!\")", " - "), ("arithmetic", r" - ", " + "), ("arithmetic", r" \* ", " / "),
    ("arithmetic", r" / ", " * "), ("arithmetic", r" \+= ", " -= "), ("arithmetic", r" -= ", " += "),
    ("arithmetic", r" \*= ", " /= "),
    ("logic", r" && ", " || "), ("logic", r" \|\| ", " && "),
    ("constant", r"\btrue\b", "false"), ("constant", r"\bfalse\b", "true"),
    ("other function", r"\bstd::min\b", "std::max"), ("other function", r"\bstd::max\b", "std::min"),
    ("other function", r"\bany_of\b", "all_of"), ("other function", r"\ball_of\b", "any_of"),
    ("other function", r"\.front\(\)", ".back()"), ("other function", r"\.back\(\)", ".front()"),
    ("other function", r"\blower_bound\b", "upper_bound"), ("other function", r"\bupper_bound\b", "lower_bound"),
]
NUMBER = re.compile(r"(?<![\w.'])(\d+(?:\.\d+)?(?:e-?\d+)?)(?![\w.'])")
CALL_OF_TWO = re.compile(r"(?<=[a-z_])\(([\w.\[\]]+), ([\w.\[\]]+)\)")
CONDITION = re.compile(r"^(\s*(?:\} else )?(?:if|while) \()(.*)(\).*)$")
GUARD = re.compile(r"^\s+if \(.*\) (return\b.*|continue|break);$")
STATEMENT = re.compile(r"^\s+(\+\+|--)?[a-z_][\w.\[\]]*(->[\w.]+)*(\(.*\)| [-+*/|&]?= .*)?(\+\+)?;$")
RETURNED = re.compile(r"^(.*\breturn )([^;{]+);$")
NO_STATEMENT = re.compile(r"^\s+(return|using|throw|const|auto|static|case|default|goto|else)\b")


def masked(line):
    """The line without comments, its strings and characters as quotes: positions stay."""
    hidden = re.sub(r'"(?:\\.|[^"\\])*"|(?<!\w)\'(?:\\.|[^\'\\])+\'', lambda text: '"' * len(text.group()), line)
    comment = hidden.find("//")
    return hidden if comment < 0 else hidden[:comment].rstrip()


def condition_end(text):
    """Where the bracket closes that is open at the beginning of the text, or -1."""
    depth = 1
    for position, letter in enumerate(text):
        depth += {"(": 1, ")": -1}.get(letter, 0)
        if depth == 0:
            return position
    return -1


def of_line(line, previous):
    """Every (kind, changed line) of one line."""
    code = masked(line)
    if not code.strip() or code.lstrip().startswith(("#", "namespace", "using", "}", "static_assert")):
        return
    for kind, pattern, into in SWAPS:
        for found in re.finditer(pattern, code):
            yield kind, line[:found.start()] + into + line[found.end():]
    for found in NUMBER.finditer(code):
        number = found.group(1)
        other = str(int(number) + 1) if number.isdigit() else repr(float(number) * 2 or 1.0)
        yield "constant", line[:found.start()] + other + line[found.end():]
    for found in CALL_OF_TWO.finditer(code):
        first, second = line[found.start(1):found.end(1)], line[found.start(2):found.end(2)]
        if first != second:
            yield "arguments", line[:found.start()] + f"({second}, {first})" + line[found.end():]
    condition = CONDITION.match(code)
    if condition:
        start = condition.end(1)
        end = condition_end(code[start:])
        if end > 0 and ";" not in code[start:start + end]:
            yield "condition", line[:start] + f"!({line[start:start + end]})" + line[start + end:]
    if GUARD.match(code):
        yield "guard removed", re.match(r"\s*", line).group() + ";"
    starts_one = masked(previous).rstrip().endswith((";", "{", "}", ":"))
    if starts_one and STATEMENT.match(code) and not NO_STATEMENT.match(code) and ".reserve(" not in code:
        yield "statement removed", re.match(r"\s*", line).group() + ";"
    returned = RETURNED.match(code)
    if returned and returned.group(2) not in ("nullopt", "std::nullopt", "nullptr", "false", "0", "result"):
        yield "early return", line[:returned.end(1)] + "{};"


def candidates(root, group):
    """By file, by kind: the mutants of a group."""
    found = {}
    for pattern in GROUPS[group]:
        for path in sorted(pathlib.Path(root).glob(pattern)):
            kinds = collections.defaultdict(list)
            previous = ""
            name = str(path.relative_to(root))
            for number, line in enumerate(path.read_text().splitlines(), 1):
                for kind, after in of_line(line, previous):
                    kinds[kind].append(Mutant(group, name, number, kind, line, after))
                previous = line if line.strip() else previous
            if kinds:
                found[name] = kinds
    return found


def sample(root, group, count, seed):
    """So many mutants: the files in turn, of each a kind at random, of the kind a place; no line twice."""
    chance = random.Random(f"{seed} {group}")
    by_file = candidates(root, group)
    files = sorted(by_file)
    chance.shuffle(files)
    taken, lines = [], set()
    for turn in range(100 * count):
        if len(taken) == count:
            break
        kinds = by_file[files[turn % len(files)]]
        one = chance.choice(kinds[chance.choice(sorted(kinds))])
        if (one.file, one.line) not in lines:
            lines.add((one.file, one.line))
            taken.append(one)
    return sorted(taken)
