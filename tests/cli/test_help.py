"""Every command and every option says what it is for; the guide names every command."""

from __future__ import annotations

import argparse
from pathlib import Path

import pytest

from app.cli import COMMANDS, parser
from tests.cli.conftest import Run

README = Path(__file__).parents[2] / "README.md"


@pytest.mark.parametrize("command", COMMANDS, ids=lambda command: command.name)
def test_a_command_has_help_and_so_has_each_of_its_options(run: Run, command: argparse.Namespace) -> None:
    said = run(command.name, "--help")

    assert said.code == 0
    assert command.words in said.out
    one = argparse.ArgumentParser()
    command.add_options(one)
    for action in one._actions:
        assert action.help, f"{command.name} {action.dest} has no help"


def test_the_help_lists_every_command_with_its_sentence() -> None:
    text = parser().format_help()

    for command in COMMANDS:
        assert f" {command.name} " in text


@pytest.mark.parametrize("command", COMMANDS, ids=lambda command: command.name)
def test_the_guide_names_the_command(command: argparse.Namespace) -> None:
    assert f"`rungwright {command.name}" in README.read_text()
