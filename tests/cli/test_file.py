"""What a command is given in place of a file or a folder, and what becomes of what it writes."""

from __future__ import annotations

import errno
import os
import shutil
import signal
import subprocess
from pathlib import Path
from typing import Any

import pytest

from layshaft.cli import main
from layshaft.shop import record
from tests.cli.call import COMMAND, ROOT, call, variables

DEMO = ROOT / "books" / "demo"
JOB = str(DEMO / "job.yaml")
NAME = "build-sheet-KL-2611-07"
on_posix = pytest.mark.skipif(os.name == "nt", reason="only on POSIX: pipes and devices with names")


@pytest.fixture
def desk(tmp_path: Path) -> Path:
    """A folder with the demo's job and shop file in it."""
    for name in ("job.yaml", "shop.yaml"):
        shutil.copy(DEMO / name, tmp_path)
    return tmp_path


@on_posix
@pytest.mark.parametrize("words", [["teardown"], ["check", JOB, "--shop"]])
@pytest.mark.parametrize(("kind", "told"), [("pipe", "is a pipe and no file"), ("folder", "is a folder"),
                                            ("/dev/zero", "is a device and no file"), ("loop.yaml", "cannot be read")])
def test_what_is_no_file_is_refused_at_once(tmp_path: Path, words: list[str], kind: str, told: str) -> None:
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "folder").mkdir()
    (tmp_path / "loop.yaml").symlink_to("loop.yaml")
    done = call(*words, kind, folder=tmp_path)
    assert done.returncode == 2
    assert done.stderr.startswith(kind)
    assert told in done.stderr


def test_in_a_folder_a_file_is_named_that_is_there(desk: Path, tmp_path: Path) -> None:
    assert call("check", ".", folder=desk).stderr.strip() == ". is a folder; name the file in it, as in job.yaml."
    (tmp_path / "bare").mkdir()
    assert "it holds none whose name ends in .yaml" in call("check", "bare", folder=tmp_path).stderr


def test_a_shop_file_in_place_of_a_job_is_called_what_it_is(desk: Path) -> None:
    told = call("rebuild", "shop.yaml", folder=desk).stderr
    assert "This is a shop file, where a job file is due." in told
    assert "name the job file instead of this one" in told
    assert "as its first line" not in told


@pytest.mark.skipif(not Path("/dev/stdin").exists(), reason="only on systems with /dev/stdin")
def test_standard_input_is_read_where_it_is_a_file_and_refused_where_it_is_a_pipe() -> None:
    with open(ROOT / "books" / "overtop" / "book.yaml", "rb") as book:
        assert call("check", "/dev/stdin", stdin=book).returncode == 0
    reader, writer = os.pipe()
    done = call("check", "/dev/stdin", stdin=reader)
    os.close(reader)
    os.close(writer)
    assert done.returncode == 2
    assert done.stderr.startswith("/dev/stdin is a pipe and no file")


@pytest.mark.parametrize("name", ["job.yaml", "shop.yaml"])
def test_a_file_that_may_not_be_read_is_said(
    desk: Path, name: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    opened = Path.open

    def refuse(path: Path, *words: Any, **more: Any) -> Any:
        if path == desk / name:
            raise PermissionError(errno.EACCES, "Permission denied", str(path))
        return opened(path, *words, **more)

    monkeypatch.setattr(Path, "open", refuse)
    assert main(["check", str(desk / "job.yaml")]) == 2
    assert capsys.readouterr().err == f"{desk / name} may not be read by you; ask whoever owns it for the right to.\n"


@pytest.mark.parametrize(
    "words",
    [["check", ""], ["rebuild", JOB, "--out", ""], ["rebuild", JOB, "--shop", " "], ["teardown", ""],
     ["check", JOB, "--books", ""], ["teardown", "overtop", "--variant", "OT6", "--to", ""]],
)
def test_an_empty_word_is_not_taken_for_this_folder(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(words) == 2
    assert "nothing stands here; name something" in capsys.readouterr().err


@pytest.mark.parametrize("words", [["check", JOB], ["teardown", "overtop"], ["rebuild", JOB]])
def test_a_folder_of_books_has_to_be_there(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main([*words, "--books", "/nope"]) == 2
    assert capsys.readouterr().err == "The folder /nope, in which to look for books, is not there.\n"
    assert main([*words, "--books", JOB]) == 2
    assert "is no folder" in capsys.readouterr().err


def test_a_folder_of_books_has_to_be_open_to_you(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(os, "access", lambda path, mode: path != tmp_path)
    assert main(["check", JOB, "--books", str(tmp_path)]) == 2
    assert f"The folder {tmp_path} may not be looked into by you" in capsys.readouterr().err


@pytest.mark.parametrize("word", ["check", "rebuild"])
@pytest.mark.parametrize(
    ("right", "wrong", "told"),
    [
        ("id: kettle-lane", "id: kettel-lane",
         "No shop file of `kettel-lane` was found beside the job. Shop files found: kettle-lane. "
         "Did you mean kettle-lane? Name the file with --shop.\n"),
        ("id: overtop", "id: ovretop",
         "No book `ovretop` was found. Books found: layline, overtop, twinpath. Did you mean overtop? "
         "Name its folder with --books.\n"),
    ],
)
def test_what_a_job_quotes_has_to_be_at_hand(
    desk: Path, word: str, right: str, wrong: str, told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    job = desk / "job.yaml"
    job.write_text(job.read_text(encoding="utf-8").replace(right, wrong), encoding="utf-8")
    assert main([word, str(job)]) == 1
    assert capsys.readouterr().err == told


def test_a_shop_file_is_found_beside_a_faulty_one(desk: Path) -> None:
    (desk / "a-shop.yaml").write_text("layshaft shop: 1\n", encoding="utf-8")
    assert main(["check", str(desk / "job.yaml")]) == 0


def test_check_takes_the_shop_file_of_a_job(desk: Path) -> None:
    (desk / "elsewhere").mkdir()
    (desk / "shop.yaml").rename(desk / "elsewhere" / "s.yaml")
    assert main(["check", str(desk / "job.yaml")]) == 1
    assert main(["check", str(desk / "job.yaml"), "--shop", str(desk / "elsewhere" / "s.yaml")]) == 0


def test_each_job_has_a_sheet_of_its_own(desk: Path) -> None:
    out, job = desk / "out", desk / "job.yaml"
    assert main(["rebuild", str(job), "--out", str(out)]) == 0
    first = (out / f"{NAME}.pdf").read_bytes()
    job.write_text(job.read_text(encoding="utf-8").replace("id: KL-2611-07", "id: KL/8 ä"), encoding="utf-8")
    assert main(["rebuild", str(job), "--out", str(out)]) == 0
    assert (out / f"{NAME}.pdf").read_bytes() == first
    names = {f"{name}.{kind}" for name in (NAME, "build-sheet-KL%2F8 ä") for kind in ("pdf", "json")}
    assert {path.name for path in out.iterdir()} == names


def test_the_sheet_of_another_job_is_not_replaced(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    taken = tmp_path / f"{NAME}.json"
    taken.write_text('{"quoted": {"job": {"id": "kl-2611-07"}}}')
    assert main(["rebuild", JOB, "--out", str(tmp_path)]) == 2
    assert "is the sheet of another job, `kl-2611-07`" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == [taken]


@pytest.mark.parametrize("error", [OSError(errno.ENOSPC, "No space left on device"), KeyboardInterrupt()])
@pytest.mark.parametrize("spoilt", ["fsync", "replace"])
@pytest.mark.parametrize("at", [1, 2])
def test_sheets_are_written_together_or_not_at_all(
    tmp_path: Path, error: BaseException, spoilt: str, at: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    real, calls = getattr(os, spoilt), []

    def spoil(*words: Any) -> Any:
        calls.append(words)
        if len(calls) == at:
            raise error
        return real(*words)

    for there in ({}, {"a.json": b"old a", "a.pdf": b"old b"}, {"a.json": b"old a"}):
        for path in tmp_path.iterdir():
            path.unlink()
        for name, data in there.items():
            (tmp_path / name).write_bytes(data)
        calls.clear()
        with monkeypatch.context() as broken:
            broken.setattr(os, spoilt, spoil)
            with pytest.raises((record.ShelfFault, KeyboardInterrupt)):
                record.write_together(tmp_path, {"a.json": b"new a", "a.pdf": b"new b"})
        assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == there


def test_a_folder_in_the_way_is_said_before_anything_is_written(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / f"{NAME}.pdf").mkdir()
    assert main(["rebuild", JOB, "--out", str(tmp_path)]) == 2
    assert "is a folder, in the way of a file" in capsys.readouterr().err
    assert [path.name for path in tmp_path.iterdir()] == [f"{NAME}.pdf"]


def test_ctrl_c_amid_the_work_is_a_sentence(capfd: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    def stop(*_: object) -> None:
        signal.raise_signal(signal.SIGINT)

    monkeypatch.setattr("layshaft.shop.rebuild.rebuild", stop)
    assert main(["rebuild", JOB]) == 130
    assert capfd.readouterr().err == "Stopped by you; nothing was left half-written.\n"


@on_posix
@pytest.mark.parametrize("module", ["layshaft.cli.run", "ruamel.yaml", "pydantic", "layshaft.shop.rebuild", "typst"])
def test_ctrl_c_amid_an_import_is_a_sentence(tmp_path: Path, module: str) -> None:
    # Python imports this at every start; it raises the signal at the moment the module is looked for.
    (tmp_path / "sitecustomize.py").write_text(
        "import os, signal, sys\n"
        "class Stop:\n"
        "    def find_spec(self, name, *rest):\n"
        f"        if name == {module!r}: os.kill(os.getpid(), signal.SIGINT)\n"
        "sys.meta_path.insert(0, Stop())\n"
    )
    env = {"PYTHONPATH": f"{tmp_path}{os.pathsep}{ROOT / 'src'}"}
    done = call("rebuild", JOB, "--out", str(tmp_path / "out"), env=env)
    assert (done.returncode, done.stdout, done.stderr) == (130, "", "Stopped by you; nothing was left half-written.\n")


def test_names_with_odd_signs_work(desk: Path) -> None:
    odd = desk / "a b\nc 'd' ü"
    odd.mkdir()
    for name in ("job.yaml", "shop.yaml"):
        data = (desk / name).read_bytes()
        (desk / name).unlink()
        (odd / name).write_bytes(data.replace(b"\n", b"\r\n"))
    assert call("check", str(odd / ".." / odd.name / "job.yaml")).returncode == 0
    assert call("rebuild", "job.yaml", folder=odd).returncode == 0
    assert (odd / f"{NAME}.pdf").exists()


@on_posix
def test_a_folder_that_is_gone_is_no_place_to_stand(tmp_path: Path) -> None:
    gone = tmp_path / "gone"
    gone.mkdir()
    words = ["sh", "-c", 'rmdir ../gone; exec "$0" "$@"', *COMMAND, "rebuild", JOB, "--out", str(tmp_path)]
    done = subprocess.run(words, cwd=gone, env=variables(), capture_output=True, text=True)
    assert done.returncode == 2
    assert done.stderr == "The folder where you stand is no longer there; go to one that is, and ask again.\n"


def test_a_part_named_twice_is_one(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["teardown", "overtop", "--variant", "OT6", "--to", "OT-011", "--to", "OT-011"]) == 0
    assert capsys.readouterr().out.startswith("Overtop add-on overdrive, OT6: teardown as far as OT-011\n")
