"""What every rule says of every layout of every demo job, as a table and line by line.

``python -m tests.checks.matrix`` prints it; read it as a technician would: is there anything that is noise?
"""

from __future__ import annotations

from app.checks.check import LayoutReport
from app.checks.registry import all_rules
from tests.demo_jobs.demos import layouts, report

MARKS = {"danger": "D", "warning": "W", "note": "n"}


def matrix() -> dict[tuple[str, str], LayoutReport]:
    """Return the whole check of every layout of every demo, by (job, layout)."""
    return {each: report(*each) for each in layouts()}


def page() -> str:
    """Return the table, and below it every finding in full."""
    found = matrix()
    names = [rule.name for rule in all_rules()]
    lines = ["D danger, W warning, n note; situations looked at of those possible", ""]
    for number, name in enumerate(names):
        lines.append("  " * number + f"┌ {name}")
    for (job, layout), said in found.items():
        cells = "".join(f"{_cell(said, name):<2}" for name in names)
        made, possible = said.coverage.situations_made, said.coverage.situations_possible
        lines.append(f"{cells}  {made:>5} of {possible:<5}  {job}: {layout}")
    for (job, layout), said in found.items():
        if said.findings:
            lines += ["", f"{job}: {layout}"]
        for each in said.findings:
            lines.append(f"  {each.severity}: {each.rule}: {each.message}")
            lines += [f"      takes for granted: {assumed}" for assumed in each.assumes]
    return "\n".join(lines)


def _cell(said: LayoutReport, name: str) -> str:
    spoken = [each for each in said.findings if each.rule == name]
    return MARKS[spoken[0].severity] if spoken else "·"


if __name__ == "__main__":
    print(page())
