"""Breaks the engine and the rules a little, many times, and tells what no test noticed.

``python -m tests.mutation [COUNT] [SEED]`` copies the tree to a temporary folder, lets mutmut make the mutants of a
seeded sample of the modules of ``app/circuit`` and ``app/checks``, tries a sample of these, and prints the survivors
with their changes. Making and tracing all of them takes ten minutes alone; another seed looks at other modules. It
fails only when the rate of noticed mutants falls below ``LEAST_NOTICED``: a survivor is for a person to look at,
since some mutants change nothing that can be seen (a cache, an order, the wording of an error).
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from random import Random

ROOT = Path(__file__).resolve().parents[2]
COPIED = ("app", "tests", "demo_jobs", "static", "templates")
COPIED_FILES = ("pyproject.toml", "README.md", "DEVELOPERS.md", "Makefile")
ROOMS = ("app/circuit", "app/checks")
MODULES = 32
TESTS = ("tests/circuit", "tests/checks", "tests/outside")
LEFT_OUT = (
    "tests/checks/test_advice.py",
    "tests/checks/test_by_chance.py",
    "tests/checks/test_matrix.py",
    "tests/checks/test_registry.py",
    "tests/checks/test_shown_kinds.py",
    "tests/circuit/test_metamorphic.py",
    "tests/circuit/test_without_numpy.py",
)
"""These take most of the time of all and say over many layouts what others say of one; a mutant runs without them."""
NOT_MUTATED = {"app/checks/advice.py"}
COUNT, SEED = 40, "rungwright"
LEAST_NOTICED = 0.75
FIRST = "app.circuit.netlist.x_netlist__mutmut_1"
"""One that few tests reach: asking for it makes all mutants and learns which test reaches which function."""
ALWAYS = "app/circuit/netlist.py"
SPINNER = "⠋⠙⠹⠸⠼⠴⠦⠧⠇⠏"
NOTICED = {"killed", "timeout", "segfault", "suspicious"}


def modules(seed: str) -> list[str]:
    """Return the modules of which mutants are made."""
    every = {str(path.relative_to(ROOT)) for room in ROOMS for path in (ROOT / room).rglob("*.py")}
    return sorted({ALWAYS, *Random(seed).sample(sorted(every - NOT_MUTATED), MODULES)})


def copy_tree(folder: Path, mutated: list[str]) -> None:
    """Copy what the tests need, with the settings of mutmut."""
    for name in COPIED:
        shutil.copytree(ROOT / name, folder / name, ignore=shutil.ignore_patterns("__pycache__"))
    for name in COPIED_FILES:
        shutil.copy2(ROOT / name, folder / name)
    said = {
        "source_paths": ["app"],
        "only_mutate": mutated,
        "also_copy": [*COPIED[1:], *COPIED_FILES],
        "pytest_add_cli_args": [
            *("-p", "no:randomly", "-p", "no:cacheprovider", "--hypothesis-profile=mutation"),
            *(f"--ignore={path}" for path in LEFT_OUT),
        ],
        "pytest_add_cli_args_test_selection": list(TESTS),
    }
    lines = [f"{name} = {value}" for name, value in said.items()]
    # The forks start from a process that has run nothing yet: what a first test keeps must not hide a mutant.
    lines += ['process_isolation = "forkserver"', "timeout_multiplier = 2.0", "timeout_constant = 10.0"]
    lines += ["track_dependencies = false", "use_git_change_detection = false"]
    with (folder / "pyproject.toml").open("a", encoding="utf-8") as settings:
        settings.write("\n".join(["", "[tool.mutmut]", *lines, ""]))


def mutmut(folder: Path, *words: str) -> str:
    """Run mutmut and return what it prints.

    Raises:
        RuntimeError: it failed.
    """
    done = subprocess.run(
        [str(Path(sys.executable).with_name("mutmut")), *words],
        cwd=folder,
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "PYTHONDONTWRITEBYTECODE": "1"},
    )
    if done.returncode:
        said = "\n".join(line for line in done.stdout.splitlines() if line.strip() and line[0] not in SPINNER)
        raise RuntimeError(f"mutmut {words[0]} failed ({done.returncode}):\n{said[-6000:]}\n{done.stderr[-3000:]}")
    return done.stdout


def statuses(folder: Path) -> dict[str, str]:
    """Return what became of each mutant, by its name."""
    lines = mutmut(folder, "results", "--all", "true").splitlines()
    return dict(line.strip().split(": ") for line in lines if ": " in line)


def run(count: int, seed: str) -> float:
    """Try a sample, print what happened, and return the share that was noticed."""
    start = time.perf_counter()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        mutated = modules(seed)
        copy_tree(folder, mutated)
        mutmut(folder, "run", "--max-children", "2", FIRST)
        every = sorted(statuses(folder))
        made_s = time.perf_counter() - start
        print(f"{len(every)} mutants of {len(mutated)} modules, made and traced in {made_s:.0f} s", flush=True)
        sample = sorted(Random(seed).sample(every, min(count, len(every))))
        mutmut(folder, "run", "--max-children", "2", *sample)
        found = statuses(folder)
        noticed = [mutant for mutant in sample if found[mutant] in NOTICED]
        for mutant in sample:
            if mutant not in noticed:
                print(f"\n{mutmut(folder, 'show', mutant)}", flush=True)
    rate = len(noticed) / len(sample)
    took_s = time.perf_counter() - start
    print(f"mutation, seed {seed!r}: {len(noticed)} of {len(sample)} noticed ({rate:.0%}), {took_s:.0f} s in all")
    return rate


def main(words: list[str]) -> int:
    """Run with the count and the seed that the command names."""
    count = int(words[0]) if words else COUNT
    seed = words[1] if len(words) > 1 else SEED
    return 0 if run(count, seed) >= LEAST_NOTICED else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
