"""Two processes that write to one job at the same time."""

import subprocess
import sys
from pathlib import Path

import pytest

from app.store.jobs import open_store
from tests.store.patching import start


def check_two_writers(data: Path, count: int) -> None:
    """Let two processes add ``count`` conductors each; none may fail and none of the conductors be lost."""
    store = open_store(data)
    job_id = store.create(start()).id
    command = [sys.executable, "-m", "tests.store.patching", str(data), job_id]
    writers = [
        subprocess.Popen([*command, name, str(count)], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        for name in ("north", "south")
    ]
    said = [writer.communicate() for writer in writers]
    assert [error for _, error in said] == ["", ""]
    assert [writer.returncode for writer in writers] == [0, 0]
    revisions = sorted(int(line.split()[0]) for output, _ in said for line in output.splitlines())
    assert revisions == list(range(2, 2 * count + 2))
    stored = store.get(job_id)
    wanted = {f"{name}-{number}" for name in ("north", "south") for number in range(1, count + 1)}
    assert set(stored.document["layouts"]["as-left"]["conductors"]) == wanted
    assert store.integrity_check() == []
    store.close()


def test_two_writers_lose_nothing(tmp_path: Path) -> None:
    check_two_writers(tmp_path, 30)


@pytest.mark.slow
def test_two_writers_of_four_hundred_patches_each_lose_nothing(tmp_path: Path) -> None:
    check_two_writers(tmp_path, 400)


def test_many_processes_may_open_a_new_directory_at_once(tmp_path: Path) -> None:
    code = (
        "import sys; from pathlib import Path; from app.store.jobs import open_store\n"
        "print(open_store(Path(sys.argv[1])).list())"
    )
    opening = [
        subprocess.Popen(
            [sys.executable, "-c", code, str(tmp_path / "new")], stdout=subprocess.PIPE, stderr=subprocess.PIPE
        )
        for _ in range(4)
    ]
    assert [process.communicate() for process in opening] == [(b"[]\n", b"")] * 4
