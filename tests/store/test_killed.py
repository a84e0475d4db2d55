"""A process that is killed in the middle of a stream of patches loses nothing that it was told is kept.

This proves nothing about a loss of power, only about the loss of a process.
"""

import random
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from app.job.patch import apply_patch
from app.store.jobs import open_store
from tests.store.patching import adding, start


def kill_after(data: Path, job_id: str, name: str, lines: int) -> list[tuple[int, str]]:
    """Let a process patch until it has acknowledged ``lines`` patches, kill it, and return all it acknowledged."""
    command = [sys.executable, "-m", "tests.store.patching", str(data), job_id, name, "100000"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as writer:
        assert writer.stdout is not None
        acknowledged = [writer.stdout.readline() for _ in range(lines)]
        writer.send_signal(signal.SIGKILL)
        acknowledged += writer.stdout.read().splitlines(keepends=True)
        assert writer.wait() == -signal.SIGKILL
    whole = [line.split() for line in acknowledged if line.endswith("\n")]
    return [(int(revision), conductor) for revision, conductor in whole]


def check_kills(data: Path, seed: str, times: int) -> int:
    """Kill a writer ``times`` times on one job; return how many patches were acknowledged in all."""
    chance = random.Random(seed)
    store = open_store(data)
    job_id = store.create(start()).id
    acknowledged: list[tuple[int, str]] = []
    for number in range(times):
        acknowledged += kill_after(data, job_id, f"k{number}", chance.randint(1, 40))
        again = open_store(data)
        assert again.integrity_check() == []
        stored, log = again.get(job_id), again.history(job_id)
        again.close()
        made = {change.revision: change.patch for change in log}
        for revision, conductor in acknowledged:
            assert made[revision] == adding(conductor)
        document = start()
        for change in log:
            document = apply_patch(document, change.patch).document
        assert stored.document == document
        assert stored.revision == len(log) + 1
    store.close()
    return len(acknowledged)


def test_a_killed_process_loses_nothing_that_was_acknowledged(tmp_path: Path) -> None:
    assert check_kills(tmp_path, "a slice", 4) >= 4


@pytest.mark.slow
def test_fifty_killed_processes_lose_nothing_that_was_acknowledged(tmp_path: Path) -> None:
    acknowledged = check_kills(tmp_path, "fifty", 50)
    print(f"50 processes killed, {acknowledged} patches acknowledged, none lost")
    assert acknowledged >= 50
