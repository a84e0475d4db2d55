"""All rules on all examples: besides the rule that an example is made for, only what is named here speaks.

Each line was looked at with a technician's eyes: it is true, and it is not a second telling of the same cause.
"""

from __future__ import annotations

import pytest

from app.checks.rule import Bad, Good, Rule
from tests.checks.asking import asked_all, every_example

SPEAKS_TOO = {
    # The good example shows that the one cause is told by the rule to which it belongs.
    "call-without-effect/one-root-cause-only": ["supply-side-unpowered"],
    "supply-jumper-missing/second-supply-lead-not-run": ["supply-side-unpowered"],
    "power-through-loads/common-not-landed-at-all": ["thermostat-without-common"],
    "power-through-loads/only-the-fan-runs": ["common-path-missing"],
    "sources-joined/commons-joined-only": ["commons-joined"],
    "temporary-jumper-fitted/lead-on-the-wrong-screw": ["load-without-call"],
    "reversing-valve-lead-missing/jumpered-to-the-supply": ["temporary-jumper-fitted"],
    "sneak-path/a-wire-that-mixes-heat-with-cooling": ["heating-with-cooling"],
    "load-without-call/burner-bridged-at-the-thermostat": ["temporary-jumper-fitted"],
    "heating-with-cooling/lead-for-heat-on-the-screw-for-cooling": ["call-without-effect"],
    "reversing-valve-inverted/lead-missing-altogether": ["reversing-valve-lead-missing"],
    # The jumper holds the valve; through the relay emergency heat gets at the compressor all the same.
    "heating-with-cooling/a-valve-that-a-jumper-holds-in-cooling": [
        "temporary-jumper-fitted",
        "emergency-heat-runs-compressor",
    ],
    # With Y and G joined at the board the fan alone is lost, and the freed lead is loose at the thermostat.
    "compressor-without-indoor-fan/fan-joined-with-cooling-at-the-board": ["call-without-effect"],
    "temporary-jumper-fitted/fan-joined-with-cooling-at-the-board": ["call-without-effect"],
    "load-without-call/fan-lead-serves-as-common": ["call-without-effect", "conductor-end-unlanded"],
    # Nothing is landed on G: in this air no compressor depends on it, but the fan call starts nothing.
    "compressor-without-indoor-fan/no-fan-in-this-air": ["call-without-effect"],
    # A loose end is told where it is, what it costs is told by the rule for that.
    "common-path-missing/loose-common-lead": ["conductor-end-unlanded"],
    "thermostat-without-common/common-loose-in-the-wall": ["conductor-end-unlanded"],
    "reversing-valve-lead-missing/lead-loose-at-the-unit": ["conductor-end-unlanded"],
    "conductor-end-unlanded/loose-at-the-board": ["compressor-without-indoor-fan"],
    # Two calls of a set-up with heat alone do their work from other letters, which the next person will wonder at.
    "reversing-valve-lead-missing/never-asked-to-cool": ["letter-differs", "letter-differs"],
    # A spare core is fine as it is; that nothing is written on it is worth a note.
    "conductor-end-unlanded/spare-landed-nowhere": ["spare-unlabelled"],
    # 30 V with nothing on it is still Class 2, but a coil on little load has 28 V and more.
    "class-2-exceeded/thirty-volts-and-no-more": ["coil-volts-high"],
    # Thermostats alone, to which nothing is wired yet.
    "situation-limit-reached/seven-heat-pump-thermostats-on-one-transformer": ["call-without-effect"] * 7,
    "situation-limit-reached/six-dual-fuel-thermostats-on-one-transformer": ["call-without-effect"] * 6,
    "terminal-overfilled/loose-ends-count-as-well": ["conductor-end-unlanded", "conductor-end-unlanded"],
}

EVERY = [pytest.param(rule, example, id=f"{rule.name}/{example.name}") for rule, example in every_example()]


@pytest.mark.parametrize(("rule", "example"), EVERY)
def test_only_what_is_named_here_speaks_besides(rule: Rule, example: Good | Bad) -> None:
    others = [finding.rule for finding in asked_all(example.job()) if finding.rule != rule.name]
    assert others == SPEAKS_TOO.get(f"{rule.name}/{example.name}", [])
