"""``check``: what is dangerous, wrong or missing, in every layout."""

from __future__ import annotations

import argparse
from collections import Counter

from app.catalogue.opening import Opened
from app.checks.answers import report_document
from app.checks.check import LayoutReport, check_layout
from app.checks.finding import SEVERITIES, Evidence
from app.checks.told import Told
from app.commands.command import Command
from app.commands.job_file import add_job, add_layout, chosen_layout, opened
from app.commands.output import add_format, print_json


def _options(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    add_layout(parser, "all of them")
    add_format(parser)


def _run(args: argparse.Namespace) -> int:
    job = opened(args)
    names = sorted(job.job.layouts) if args.layout is None else [chosen_layout(args, job.job)]
    reports = {name: check_layout(job.job, name, job.catalogue) for name in names}
    if args.format == "json":
        print_json({"layouts": {name: report_document(report) for name, report in reports.items()}})
    else:
        _print(job, reports)
    return int(any(finding.severity == "danger" for report in reports.values() for finding in report.findings))


def _print(job: Opened, reports: dict[str, LayoutReport]) -> None:
    print(job.job.title)
    if not reports:
        print("\nThe job has no layout.")
    for name, report in reports.items():
        counted = Counter(each.finding.severity for each in report.told if not each.is_aside)
        counts = ", ".join(_counted(counted[severity], severity) for severity in SEVERITIES)
        aside = [each for each in report.told if each.is_aside]
        counts += f", {len(aside)} set aside" if aside else ""
        made, possible = report.coverage.situations_made, report.coverage.situations_possible
        print(f"\nLayout {name}: {counts}; {made} of {possible} situations tried")
        for severity in SEVERITIES:
            for each in report.told:
                if each.finding.severity == severity and not each.is_aside:
                    _print_finding(each)
        for each in aside:
            print(f"\n  SET ASIDE  {each.finding.rule}: {each.finding.message}")
            print(f"    reason  {each.reason}")


def _counted(count: int, severity: str) -> str:
    return f"{count or 'no'} {severity}" + ("s" if count > 1 else "")


def _print_finding(told: Told) -> None:
    finding = told.finding
    print(f"\n  {finding.severity.upper()}  {finding.rule}: {finding.message}")
    print(f"    why     {finding.why}")
    print(f"    where   {', '.join(subject.replace(':', ' ', 1) for subject in finding.subjects)}")
    meter = _meter(finding.evidence)
    if meter:
        print(f"    meter   {meter}")
    if finding.assumes:
        print(f"    assumes {'; '.join(finding.assumes)}")
    if told.back:
        print(f"    back    {told.back}; it was set aside: {told.reason}")
    elif told.reason:
        print(f"    known   still open: {told.reason}")
    if finding.fix is not None:
        print("    mend    a fix is known; the bench offers it, --format json shows it")


def _meter(evidence: Evidence) -> str:
    """Return in words what a meter would confirm, empty where there is nothing to probe."""
    if evidence.probe is None or evidence.volts is None:
        return ""
    within = f" within {evidence.tolerance_volts:.1f} V" if evidence.tolerance_volts is not None else ""
    when = f"in call {evidence.call}" if evidence.call else "with no call"
    return f"{evidence.probe[0]} to {evidence.probe[1]} shows {evidence.volts:.1f} V{within}, {when}"


COMMAND = Command("check", "Say what is dangerous, wrong or missing in every layout of a job.", _options, _run)
