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
    assert "0:00 fb inducer relay pulled in inducer contact" in lines
    assert "0:40 fb igniter warm on its time is up" in lines
    assert "0:42 fb Furnace heat on flame proved" in lines
    assert lines[-1] == "Ends settled: nothing more comes after 1:12."
    assert lines[-2] == "Then runs: fb furnace heat, fb indoor fan."
    assert not any("pressure switch input on" in line for line in lines)


def test_a_run_in_words_begins_with_what_a_person_did_and_how_it_arrived(run: Run, sound: Path) -> None:
    said = run("sequence", sound, "--at", "0:tc=heat-1", "--at", "900:fb.limit=open", "--at", "1800:tc=idle")

    lines = [" ".join(line.split()) for line in said.out.splitlines()]
    start = lines.index("0:00 tc calls heat 1")
    assert lines[start + 1 : start + 4] == [
        "0:00 tc contact R to W closed tc calls heat 1",
        "0:00 fb heat call on contact R to W (tc)",
        "0:00 fb heat called, safeties made on heat call",
    ]
    assert lines.index("15:00 fb limit open") < lines.index("15:00 fb high-temperature limit open fb limit open")
    # Nothing that hums, burns or turns follows from the call that ends while the limit is open.
    assert "30:00 tc calls idle" in lines
    assert not any(line.startswith("30:00 tc contact") for line in lines)


def test_what_comes_over_the_house_stands_in_rows_of_its_own(run: Run, sound: Path) -> None:
    changes = ("1:supply=88", "2:outdoor=-8", "3:fault=conductor-open:w3", "4:main=off", "5:tc=heat-1")
    said = run("sequence", sound, *(word for change in changes for word in ("--at", change)))

    lines = [" ".join(line.split()) for line in said.out.splitlines()]
    for told in (
        "0:01 supply at 88 %",
        "0:02 outdoors 17.6 °F",
        "0:03 conductor open w3",
        "0:04 supply main off",
        "0:05 tc calls heat 1",
    ):
        assert told in lines
    assert "Then nothing runs." in lines


def test_all_tells_of_contacts_and_inputs_too(run: Run, sound: Path) -> None:
    said = run("sequence", sound, "--at", "0:tc=heat-1", "--all")

    lines = [" ".join(line.split()) for line in said.out.splitlines()]
    assert "0:00 tc contact R to W closed tc calls heat 1" in lines
    assert "0:00 fb heat call on contact R to W (tc)" in lines
    assert "0:05 fb pressure switch input on draft pressure switch" in lines


def test_without_changes_nothing_moves(run: Run, sound: Path) -> None:
    said = run("sequence", sound, "--for", 90)

    assert "Nothing moves from 0:00 to 1:30." in said.out
    assert "Then nothing runs." in said.out
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


def test_a_timing_chart_has_the_events_of_the_sequence(run: Run, sound: Path, tmp_path: Path) -> None:
    options = ("--at", "0:tc=heat-1", "--at", "600:tc=idle")
    events = run("sequence", sound, *options, "--format", "json").json()["events"]

    drawn = run("draw", sound, "--view", "timing", *options, "--all", "--out", tmp_path / "run.svg")
    text = (tmp_path / "run.svg").read_text()

    assert (drawn.code, drawn.err) == (0, "")
    times = sorted(int(said.split('"')[0]) for said in text.split('data-at-ms="')[1:])
    done = [0, 600_000]
    assert times == sorted([*done, *(round(event["at_s"] * 1000) for event in events)])


def test_a_timing_chart_is_cut_off_where_the_sequence_is(run: Run, sound: Path) -> None:
    drawn = run("draw", sound, "--view", "timing", "--at", "0:tc=heat-1", "--for", "30", "--out", "-", "--dated", "May")
    assert "Cut off at 0:30" in drawn.out
    assert "Date: May" in drawn.out


def test_a_change_is_refused_where_the_view_shows_no_sequence(run: Run, sound: Path) -> None:
    said = run("draw", sound, "--at", "0:tc=heat-1", "--out", "-")
    assert (said.code, said.out) == (2, "")
    assert "--view timing" in said.err


def test_a_timing_chart_of_nothing_is_not_drawn(run: Run, sound: Path) -> None:
    said = run("draw", sound, "--view", "timing", "--call", "tc=heat-1", "--out", "-")
    assert said.code == 2
    assert "--at 0:tc=heat-1" in said.err
