"""``sequence``: a run as JSON and in words."""

from __future__ import annotations

from pathlib import Path

from tests.cli.conftest import Run


def test_a_run_as_json_has_events_with_causes_and_an_end(run: Run, sound: Path) -> None:
    said = run("sequence", sound, "--at", "0:tc=heat-1", "--at", "600:tc=idle", "--format", "json")

    document = said.json()
    assert (said.code, said.err) == (0, "")
    assert set(document) == {"events", "ends", "until_s", "period_s", "unsettled", "assumes"}
    assert all(set(event) == {"at_s", "what", "now", "cause"} for event in document["events"])
    gas = [event for event in document["events"] if event["what"] == "element:fb.gas_valve"]
    assert [(event["at_s"], event["now"]) for event in gas] == [(40.0, "pulled-in"), (600.0, "released")]
    assert document["ends"] == "settled"


def test_a_run_in_words_tells_of_what_hums_burns_and_turns(run: Run, sound: Path) -> None:
    said = run("sequence", sound, "--at", "0:tc=heat-1")

    lines = [" ".join(line.split()) for line in said.out.splitlines()]
    assert "min:s part what now because of" in lines
    assert "0:00 fb inducer relay pulled in inducer c" in lines
    assert "0:40 fb warm on its time is up" in lines
    assert "0:42 fb Furnace heat on flame proved" in lines
    assert lines[-1] == "Ends settled: nothing more comes after 1:12."
    assert not any("heat call on" in line for line in lines)


def test_all_tells_of_contacts_and_inputs_too(run: Run, sound: Path) -> None:
    said = run("sequence", sound, "--at", "0:tc=heat-1", "--all")

    lines = [" ".join(line.split()) for line in said.out.splitlines()]
    assert "0:00 tc w closed tc=heat-1" in lines
    assert "0:00 fb heat call on w (tc)" in lines


def test_without_changes_nothing_moves(run: Run, sound: Path) -> None:
    said = run("sequence", sound, "--for", 90)

    assert "Nothing moves from 0:00 to 1:30." in said.out
    assert "Ends settled" in said.out


def test_it_begins_where_the_situation_has_long_stood(run: Run, sound: Path) -> None:
    said = run("sequence", sound, "--call", "tc=heat-1", "--at", "5:tc=idle", "--format", "json")

    assert said.json()["events"][0] == {
        "at_s": 5.0,
        "what": "element:tc.w",
        "now": "open",
        "cause": "change:tc=idle",
    }


def test_a_failing_furnace_is_said_to_cycle_or_to_be_cut_off(run: Run, sound: Path) -> None:
    failing = ("sequence", sound, "--at", "0:tc=heat-1", "--at", "1:fb.flame=open")

    assert "Cut off at 10:00, with something still to come." in run(*failing, "--for", 600).out
    assert "and so on without end." in run(*failing, "--for", 9000).out


def test_a_change_that_does_not_fit_is_refused_with_what_would_be_right(run: Run, sound: Path) -> None:
    said = run("sequence", sound, "--at", "5:fb.limit=ajar")

    assert (said.code, said.out) == (2, "")
    assert "fb.limit cannot be 'ajar'" in said.err
    assert "would be right: " in said.err


def test_a_change_after_the_end_is_refused(run: Run, sound: Path) -> None:
    said = run("sequence", sound, "--at", "500:tc=heat-1", "--for", 300)

    assert (said.code, said.out) == (2, "")
    assert "lies outside the run" in said.err
