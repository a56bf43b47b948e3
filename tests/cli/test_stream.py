"""Streams that end early, are full, are closed or speak another code."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path

import pytest

from tests.cli.call import COMMAND, ROOT, call, variables

JOB = str(ROOT / "books" / "demo" / "job.yaml")
on_linux = pytest.mark.skipif(not Path("/dev/full").exists(), reason="only on systems with /dev/full")


@pytest.fixture
def faulty(tmp_path: Path) -> str:
    """A book with more faults than a pipe holds."""
    path = tmp_path / "book.yaml"
    path.write_text("layshaft book: 1\n" + "".join(f"no such key {n}: 1\n" for n in range(2000)), encoding="utf-8")
    return str(path)


def gone() -> int:
    """The writing end of a pipe whose reader has left."""
    reader, writer = os.pipe()
    os.close(reader)
    return writer


@pytest.mark.parametrize("flags", [[], ["--json"]])
def test_a_reader_that_leaves_early_changes_no_exit_code(faulty: str, flags: list[str]) -> None:
    stream = gone()
    done = call("check", faulty, *flags, stdout=stream)
    os.close(stream)
    assert (done.returncode, done.stderr) == (1, "")


@pytest.mark.parametrize("words", [["check", JOB], ["--help"], ["rebuild", "--help"], ["schema", "book"]])
def test_a_reader_that_leaves_early_is_no_failure(words: list[str]) -> None:
    stream = gone()
    done = call(*words, stdout=stream)
    os.close(stream)
    assert (done.returncode, done.stderr) == (0, "")


@on_linux
@pytest.mark.parametrize("words", [["check", JOB], ["--help"], ["--version"], ["schema", "job"], ["completion", "zsh"]])
def test_a_full_disk_behind_stdout_is_told_in_a_sentence(words: list[str]) -> None:
    with open("/dev/full", "w") as full:
        done = call(*words, stdout=full)
    assert done.returncode == 2
    assert done.stderr == "The result could not be written to standard output: No space left on device.\n"


@on_linux
def test_refusals_nobody_can_read_leave_the_exit_code() -> None:
    with open("/dev/full", "w") as full:
        assert call("check", "nowhere.yaml", stderr=full).returncode == 2
        assert call("check", stderr=full).returncode == 2


@pytest.mark.skipif(os.name == "nt", reason="only on POSIX: a shell closes the streams")
@pytest.mark.parametrize(("closed", "code"), [(">&-", 2), ("2>&-", 0), (">&- 2>&-", 2)])
def test_closed_streams_give_an_exit_code(closed: str, code: int) -> None:
    started = f'exec "$0" "$@" {closed}'
    words = ["sh", "-c", started, *COMMAND, "check", JOB]
    done = subprocess.run(words, env=variables(), capture_output=True, text=True, timeout=60)
    assert done.returncode == code
    assert "Traceback" not in done.stderr


@pytest.mark.parametrize("more", [{"LANG": "C", "LC_ALL": "C"}, {"PYTHONIOENCODING": "ascii"}, {"PYTHONUTF8": "0"}])
def test_signs_come_through_whatever_the_locale_says(tmp_path: Path, more: dict[str, str]) -> None:
    (tmp_path / "book.yaml").write_text("layshaft book: 1\nTiefe ≈ 2 µm: ½\n", encoding="utf-8")
    done = call("check", "book.yaml", folder=tmp_path, env=variables(**more))
    assert done.returncode == 1
    assert "2 | Tiefe ≈ 2 µm: ½" in done.stdout


@pytest.mark.parametrize("columns", ["20", "wide"])
@pytest.mark.parametrize("words", [["--help"], ["rebuild", "--help"], ["assembly", "--help"]])
def test_narrow_screens_get_help_too(words: list[str], columns: str) -> None:
    done = call(*words, env=variables(COLUMNS=columns))
    assert (done.returncode, done.stderr) == (0, "")
    assert "examples:" in done.stdout
