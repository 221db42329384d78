"""Changes places of src/model and src/analysis, one at a time, and runs the tests on each: a change that no test notices is printed. Run by
make check-mutants, which gives it a source tree of its own to build in.

    mutants.py TREE [--count N | --all] [--night N] [--at PATTERN...] [--no-golden]

All places are in one shuffled order, of which night N takes the N-th part: each night takes others. What tests/mutants.txt lists is known to make
no difference and is not counted; neither is a change that the compiler turns into the same code."""
import argparse
import datetime
import fnmatch
import glob
import os
import random
import re
import shlex
import subprocess
import sys
import time

FOLDERS = ["src/model", "src/analysis"]
LIMIT_S = 600  # of one test; programs take a second, tests/golden.sh a minute

# What is looked for in a line without its comments and strings, and what takes its place.
CHANGES = [
    (r"(?<![<>=!-])<(?![<=])", "<="), (r"(?<![<>-])<=", "<"), (r"(?<![<>=!-])>(?![>=])", ">="), (r"(?<![<>-])>=", ">"),
    (r"==", "!="), (r"!=", "=="), (r" && ", " || "), (r" \|\| ", " && "), (r"!(?=[a-z(])", ""),
    (r" \+ ", " - "), (r" - ", " + "), (r" \* ", " / "), (r" / ", " * "), (r" \+= ", " -= "), (r" -= ", " += "),
    (r"\bfmax\b", "fmin"), (r"\bfmin\b", "fmax"), (r"\btrue\b", "false"), (r"\bfalse\b", "true"),
    (r"(?<![\w.])\d+(?![\w.])", lambda number: str(int(number) + 1)),
    (r"(?<![\w.])\d+\.\d+(?![\w.])", lambda number: f"({number} * 1.1 + 0.001)"),
    (r"\bif \(", "if (0 && "), (r"\bif \(", "if (1 || "),
]


def code_of(text):
    """The text with comments, strings and directives blanked, place by place."""
    pattern = r'/\*.*?\*/|//[^\n]*|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\])+\'|^[ \t]*#(?!define\b)[^\n]*'
    def blank(found):
        return re.sub(r"[^\n]", "\x00", found.group())

    code = re.sub(pattern, blank, text, flags=re.S | re.M)
    return re.sub(r"\? -?1 : -?1(?=\)?;)", blank, code)  # of a comparison for qsort: only the sign matters


class Mutant:
    def __init__(self, path, text, begin, end, instead):
        self.path, self.text = path, text[:begin] + instead + text[end:]
        first = text.rfind("\n", 0, begin) + 1
        last = text.find("\n", begin)
        self.line = text.count("\n", 0, begin) + 1
        self.before = text[first:last].strip()
        self.after = (text[first:begin] + instead + text[end:last]).strip()

    def key(self):
        return self.path, self.before, self.after

    def __str__(self):
        return f"{self.path}:{self.line}\n- {self.before}\n+ {self.after}"


def mutants_of(tree, path):
    with open(f"{tree}/{path}", encoding="utf-8") as file:
        text = file.read()
    code = code_of(text)
    for pattern, instead in CHANGES:
        for found in re.finditer(pattern, code):
            word = found.group()
            yield Mutant(path, text, found.start(), found.end(), instead(word) if callable(instead) else instead)


def equivalents(path):
    """A paragraph each: file, line before, line after, why."""
    with open(path, encoding="utf-8") as file:
        paragraphs = [part.split("\n") for part in re.sub(r"^#.*\n", "", file.read(), flags=re.M).strip().split("\n\n") if part]
    return {(lines[0].split(":")[0], lines[1][2:], lines[2][2:]): " ".join(lines[3:]) for lines in paragraphs}


class Bench:
    """The tree, built: the library as a shared object, which the test programs load when they run."""

    def __init__(self, tree, golden):
        self.tree = tree
        self.make("libtautline.a")
        # the libraries and the programs' objects come from what make would run
        self.libraries = self.variable("CHECK_LIBS") + self.variable("LIBRARIES_USED")
        self.compile = self.variable("COMPILE")
        self.archive = [path for path in glob.glob("src/**/*.o", root_dir=tree, recursive=True) if not path.endswith("commands/main.o")]
        self.link()
        self.tests = [test for test in self.variable("UNIT_TESTS") + self.variable("SOURCE_TESTS") if self.concerns(test)]
        self.golden = ["tests/golden.sh"] if golden else []
        shared = f"LDADD=-L{tree} -ltautline -Wl,-rpath,{tree} {' '.join(self.libraries)}"
        self.make("tautline", f"tautline_LDADD={shared[6:]}")
        self.make(*self.tests, shared)
        self.seconds = {}  # that a test took when it last passed
        self.environment = {**os.environ, "TAUTLINE": f"{tree}/tautline", "GOLDEN": f"{tree}/tests/golden", "SRC": f"{tree}/src", "TOP": tree,
                            "SCHEMAS_MADE": f"{tree}/src/schemas", "CK_FORK": "no"}

    def variable(self, name):
        show = f"include Makefile\n$(info $({name}))\nmutants-show:;@:\n"
        shown = subprocess.run(["make", "-s", "-f", "-", "mutants-show"], cwd=self.tree, input=show, check=True, capture_output=True, text=True).stdout
        return shlex.split(shown)

    def concerns(self, test):
        """Does the test include a header of what is changed?"""
        with open(f"{self.tree}/{test}.c", encoding="utf-8") as file:
            return re.search(r'#include "(model|analysis|unit/made_)', file.read())

    def make(self, *arguments):
        subprocess.run(["make", "-s", f"-j{os.cpu_count()}", *arguments], cwd=self.tree, check=True, stdout=subprocess.DEVNULL)

    def compiles(self, source, object_path):
        return subprocess.run([*self.compile, "-c", "-o", object_path, source], cwd=self.tree, stderr=subprocess.DEVNULL, check=False).returncode == 0

    def link(self):
        subprocess.run([*self.compile, "-shared", "-o", "libtautline.so", *self.archive, *self.libraries], cwd=self.tree, check=True)

    def passes(self, command):
        try:
            return subprocess.run(command, cwd=self.tree, env=self.environment, timeout=LIMIT_S, stdout=subprocess.DEVNULL,
                                  stderr=subprocess.DEVNULL, stdin=subprocess.DEVNULL, check=False).returncode in (0, 77)
        except subprocess.TimeoutExpired:
            return False

    def killer(self, path):
        """The first test that fails; those of the file's own name come first."""
        words = set(re.split(r"\W|_", path.removesuffix(".c"))) - {"src"}
        for test in sorted(self.tests, key=lambda test: (-len(words & set(re.split(r"\W|_", test))), self.seconds.get(test, 0))):
            begin = time.monotonic()
            if not self.passes([f"./{test}"]):
                return test
            self.seconds[test] = time.monotonic() - begin
        return next((test for test in self.golden if not self.passes(["sh", test])), None)


def judge(bench, mutant):
    """What becomes of it: "killed by ...", "same code", "does not compile" or "survived"."""
    source, object_path = f"{bench.tree}/{mutant.path}", mutant.path.removesuffix(".c") + ".o"
    with open(source, encoding="utf-8") as file:
        text = file.read()
    with open(f"{bench.tree}/{object_path}", "rb") as file:
        code = file.read()
    try:
        with open(source, "w", encoding="utf-8") as file:
            file.write(mutant.text)
        if not bench.compiles(mutant.path, object_path):
            return "does not compile"
        with open(f"{bench.tree}/{object_path}", "rb") as file:
            if file.read() == code:
                return "same code"
        bench.link()
        killer = bench.killer(mutant.path)
        return f"killed by {killer}" if killer else "survived"
    finally:
        with open(source, "w", encoding="utf-8") as file:
            file.write(text)
        with open(f"{bench.tree}/{object_path}", "wb") as file:
            file.write(code)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("tree")
    parser.add_argument("--count", type=int, default=60)
    parser.add_argument("--all", action="store_true")
    parser.add_argument("--night", type=int, default=datetime.date.today().toordinal())
    parser.add_argument("--no-golden", action="store_true", help="the unit tests alone, which are quicker")
    parser.add_argument("--at", default=["*"], nargs="+", help="as in chain.c:* or chain.c:4[0-9]")
    options = parser.parse_args()
    tree = os.path.abspath(options.tree)
    paths = sorted(path for folder in FOLDERS for path in glob.glob(f"{folder}/**/*.c", root_dir=tree, recursive=True))
    places = [mutant for path in paths for mutant in mutants_of(tree, path) if any(fnmatch.fnmatch(f"{path}:{mutant.line}", f"*{at}") for at in options.at)]
    random.Random(1).shuffle(places)
    if not options.all:
        begin = options.night * options.count % len(places)
        places = (places + places)[begin:begin + options.count]
    known = equivalents(f"{tree}/tests/mutants.txt")
    bench = Bench(tree, not options.no_golden)
    failing = bench.killer("")
    if failing:
        sys.exit(f"{failing} fails on the sources as they are")
    survivors, killed, passed_over = [], 0, 0
    log = open(f"{tree}/mutants.log", "w", encoding="utf-8")
    for mutant in places:
        fate = "known to make no difference" if mutant.key() in known else judge(bench, mutant)
        print(f"{mutant.path}:{mutant.line}: {fate}: {mutant.after}", file=log, flush=True)
        killed += fate.startswith("killed")
        passed_over += fate in ("known to make no difference", "same code", "does not compile")
        if fate == "survived":
            survivors.append(mutant)
            print(mutant, "\n", flush=True)
    counted = killed + len(survivors)
    print(f"{killed} of {counted} changes were noticed ({100 * killed / max(counted, 1):.0f} %), {len(survivors)} were not; "
          f"{passed_over} make no difference or no program")
    return len(survivors) > 0


if __name__ == "__main__":
    sys.exit(main())
