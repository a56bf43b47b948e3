"""start.py, run as a newcomer runs it: in a copy of its own, on a machine that has nothing.

A stand-in for uv makes environments without a network.  Where a test needs a start to be caught midway, the
stand-in waits on a pipe that the test opens, so nothing here waits for a clock.
"""

import ast
import contextlib
import os
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

import start
from layshaft.book.sheet import load_job
from layshaft.shop.rebuild import sheet_name
from tests.house.tree import ROOT

pytestmark = pytest.mark.skipif(os.name == "nt", reason="only on POSIX: the stand-in is a shell script")

STAND_IN = f"""#!/bin/sh
for last; do :; done
case "$1" in
venv) mkdir -p "$last/bin" && ln -s {sys.executable} "$last/bin/python" ;;
pip) [ ! -p "$HOME/midway" ] || {{ echo Collecting alpha; cat; }} <"$HOME/midway" ;;
esac
"""
COMMAND = """
import pathlib, sys
print("layshaft", *sys.argv[1:])
if sys.argv[1] == "rebuild":
    folder = pathlib.Path(sys.argv[-1])
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "build-sheet-KL-2611-07.pdf").write_bytes(b"%PDF")
sys.exit(5 if "--fail" in sys.argv else 0)
"""


class Newcomer:
    """Somebody with a fresh copy of the tree and a machine of their own."""

    def __init__(self, folder: Path) -> None:
        """Lay out the copy, a home and a path on which there is nothing but a shell's own programs."""
        self.tree, self.home, self.programs = folder / "tree", folder / "home", folder / "programs"
        for place in (self.tree / "src" / "layshaft", self.tree / "books" / "demo", self.home, self.programs):
            place.mkdir(parents=True)
        shutil.copy(ROOT / "start.py", self.tree)
        for lock in start.LOCKS.values():
            (self.tree / lock.name).write_text("alpha==1 \\\n    --hash=sha256:00\n", encoding="utf-8")
        (self.tree / "src" / "layshaft" / "__main__.py").write_text(COMMAND, encoding="utf-8")
        (self.tree / "books" / "demo" / "job.yaml").touch()
        self.variables = {"HOME": str(self.home), "PATH": str(self.programs)}
        for name in ("sh", "cat", "mkdir", "ln"):
            (self.programs / name).symlink_to(str(shutil.which(name)))

    def get_uv(self, script: str = STAND_IN) -> None:
        """Put the stand-in on the path."""
        program = self.programs / "uv"
        program.write_text(script, encoding="utf-8")
        program.chmod(0o755)

    def begin(self, *arguments: str, before: str = "") -> subprocess.Popen[str]:
        """Start it, in a process group of its own; `before` is what is wrong with this machine's Python."""
        launch = [sys.executable, "start.py", *arguments]
        if before:
            go_on = "import sys, runpy; sys.argv[:1] = []; runpy.run_path('start.py', None, '__main__')"
            launch[1:1] = ["-c", f"{before}\n{go_on}"]
        return subprocess.Popen(launch, cwd=self.tree, env=self.variables, text=True, start_new_session=True,
                                stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.PIPE)

    def start(self, *arguments: str, before: str = "") -> tuple[int, str, str]:
        """Start it to its end and return the exit code and what it said; never a traceback."""
        process = self.begin(*arguments, before=before)
        out, err = process.communicate()
        assert "Traceback" not in out + err
        return process.returncode, out, err

    @contextlib.contextmanager
    def catch_midway(self) -> Iterator[subprocess.Popen[str]]:
        """Start it and hand it over while its installer is at work, which lasts for as long as this does."""
        os.mkfifo(self.home / "midway")
        holding = os.open(self.home / "midway", os.O_RDWR)
        try:
            process = self.begin()
            assert process.stdout
            assert [process.stdout.readline() for _ in range(3)][-1] == "  1 of 1: alpha\n"
            os.unlink(self.home / "midway")
            yield process
        finally:
            os.close(holding)


@pytest.fixture
def newcomer(tmp_path):
    return Newcomer(tmp_path)


@pytest.fixture
def with_uv(newcomer):
    newcomer.get_uv()
    return newcomer


def test_first_start_makes_ready_and_says_where_the_sheet_lies(with_uv):
    code, out, err = with_uv.start()
    home = with_uv.tree / ".layshaft"
    assert (code, err) == (0, "")
    assert out.splitlines() == [
        f"Making the environment in {home / 'env'}.",
        "Fetching and unpacking 1 packages with uv.",
        "Ready after 0 s.",
        "Taking the demo job through: books/demo/job.yaml.",
        f"layshaft rebuild {with_uv.tree / 'books/demo/job.yaml'} --out {home / 'demo'}",
        f"The build sheet lies in {home / 'demo' / start.SHEET}",
    ]
    assert (home / "demo" / start.SHEET).exists()


def test_sheet_is_called_as_the_command_calls_it():
    job = load_job(start.DEMO_JOB.read_bytes(), "job.yaml").content.id
    assert f"{sheet_name(job)}.pdf" == start.SHEET


def test_command_knows_what_it_is_called(with_uv):
    (with_uv.tree / "src" / "layshaft" / "__main__.py").write_text(
        "import os; print(os.environ['LAYSHAFT_CALLED'])", encoding="utf-8")
    assert with_uv.start("run")[1].endswith("\npython3 start.py run\n")


def test_second_start_is_quick_and_installs_nothing(with_uv):
    with_uv.start()
    (with_uv.programs / "uv").unlink()
    began = time.monotonic()
    code, out, _ = with_uv.start()
    assert code == 0
    assert out.startswith("Taking the demo job through")
    assert time.monotonic() - began < 2.0


def test_arguments_and_exit_code_pass_through(with_uv):
    code, out, _ = with_uv.start("run", "check", "a b.yaml", "--fail")
    assert code == 5
    assert out.endswith("layshaft check a b.yaml --fail\n")


def test_failing_demo_names_no_sheet(with_uv):
    (with_uv.tree / "src" / "layshaft" / "__main__.py").write_text("raise SystemExit(1)", encoding="utf-8")
    code, out, _ = with_uv.start()
    assert code == 1
    assert "build sheet lies" not in out


@pytest.mark.parametrize("purpose", ["run", "test"])
def test_changed_lock_makes_the_environment_afresh(with_uv, purpose):
    ready = f"import start; start.make_ready({purpose!r})"
    run = {"cwd": with_uv.tree, "env": with_uv.variables, "text": True}
    subprocess.check_output([sys.executable, "-c", ready], **run)
    lock = with_uv.tree / start.LOCKS[purpose].name
    lock.write_text(lock.read_text(encoding="utf-8").replace("==1", "==2"), encoding="utf-8")
    kept = with_uv.tree / ".layshaft" / "env" / "of-the-old-lock"
    kept.touch()
    assert "Making the environment" in subprocess.check_output([sys.executable, "-c", ready], **run)
    assert not kept.exists()


def test_tests_add_to_what_runs_have(with_uv):
    with_uv.start()
    kept = with_uv.tree / ".layshaft" / "env" / "of-the-first-start"
    kept.touch()
    run = {"cwd": with_uv.tree, "env": with_uv.variables, "text": True}
    out = subprocess.check_output([sys.executable, "-c", "import start; start.make_ready('test')"], **run)
    assert out.startswith("Adding what the tests need")
    assert kept.exists()
    assert with_uv.start()[1].startswith("Taking the demo job through")


def test_environment_without_its_stamp_is_made_again(with_uv):
    with_uv.start()
    (with_uv.tree / ".layshaft" / "env" / "stamp-run").unlink()
    left = with_uv.tree / ".layshaft" / "env" / "left-over"
    left.touch()
    code, out, _ = with_uv.start()
    assert code == 0
    assert out.startswith("An earlier start was cut short; what it left is cleared away.\n")
    assert not left.exists()


def test_interrupt_gets_a_sentence_and_the_next_start_mends_it(with_uv):
    with with_uv.catch_midway() as process:
        os.killpg(process.pid, signal.SIGINT)
        _, err = process.communicate()
    assert process.returncode == 130
    assert err == "Stopped by you: the next start puts right whatever was left half-made.\n"
    code, out, _ = with_uv.start()
    assert code == 0
    assert out.startswith("An earlier start was cut short")


def test_two_starts_at_once_make_one_environment(with_uv):
    with with_uv.catch_midway() as first:
        second = with_uv.begin()
        assert second.stdout.readline().startswith("Another start is making the environment in ")
    first.communicate()
    out, err = second.communicate()
    assert (first.returncode, second.returncode, err) == (0, 0, "")
    assert out.startswith("Taking the demo job through")


def test_start_that_was_killed_leaves_its_installer_alone_until_it_ends(with_uv):
    with with_uv.catch_midway() as first:
        first.kill()
        first.wait()
        second = with_uv.begin()
        assert second.stdout.readline().startswith("Another start is making the environment in ")
    out, _ = second.communicate()
    assert second.returncode == 0
    assert out.startswith("An earlier start was cut short; what it left is cleared away.\nMaking")
    first.communicate()


def test_stale_lock_file_stops_nobody(with_uv):
    (with_uv.tree / ".layshaft").mkdir()
    (with_uv.tree / ".layshaft" / "lock").write_text("4711", encoding="ascii")
    assert with_uv.start()[0] == 0


def test_clone_that_cannot_be_written_uses_the_persons_data_folder_and_says_so(with_uv):
    (with_uv.tree / ".layshaft").touch()
    code, out, _ = with_uv.start()
    assert code == 0
    data = "Library/Application Support" if sys.platform == "darwin" else ".local/share"
    assert out.startswith(f"Making the environment in {with_uv.home / data / 'layshaft'}")


def test_folder_asked_for_that_cannot_be_written_is_said(with_uv):
    with_uv.variables["LAYSHAFT_HOME"] = str(with_uv.home / "file" / "below")
    (with_uv.home / "file").touch()
    code, out, err = with_uv.start()
    assert (code, out) == (1, "")
    assert err == (f"Nothing can be written in {with_uv.home}/file/below: set LAYSHAFT_HOME to a folder that "
                   "can be.\n")


def test_old_python_is_told_and_shown_a_newer_one(newcomer):
    old = "import sys; sys.version_info = (3, 6, 9, 'final', 0)"
    code, _, err = newcomer.start(before=old)
    assert code == 1
    assert err == ("Layshaft needs Python 3.11 or newer and this is 3.6: install a newer one and start again "
                   "with that.\n")
    (newcomer.programs / "python3.12").symlink_to(sys.executable)
    assert newcomer.start(before=old)[2].endswith(" and this is 3.6: start with `python3.12 start.py`.\n")


def test_old_python_can_read_the_file():
    ast.parse((ROOT / "start.py").read_text(encoding="utf-8"), feature_version=(3, 6))


def test_missing_venv_module_is_said(newcomer):
    lacking = ("import importlib.util as u; find = u.find_spec\n"
               "u.find_spec = lambda name, *rest: None if name == 'ensurepip' else find(name, *rest)")
    code, _, err = newcomer.start(before=lacking)
    assert code == 1
    assert err == ("This Python lacks its venv module: on Debian or Ubuntu run `apt-get install "
                   "python3-venv` as root, elsewhere install Python whole, then start again.\n")


def test_full_disk_is_said_before_anything_is_made(newcomer):
    small = "import shutil; shutil.disk_usage = lambda place: shutil._ntuple_diskusage(9e9, 8.9e9, 10**8)"
    code, out, err = newcomer.start(before=small)
    assert (code, out) == (1, "")
    assert err == (f"There is no room on the disk of {newcomer.tree}/.layshaft (100 MB are free and 500 are "
                   "needed): free some, or set LAYSHAFT_HOME to a folder on a larger disk, then start "
                   "again.\n")


def test_disk_that_fills_midway_is_said(with_uv):
    full = "import errno, shutil\ndef refuse(*_): raise OSError(errno.ENOSPC, 'x')\nshutil.which = refuse"
    code, _, err = with_uv.start(before=full)
    assert code == 1
    assert err.startswith(f"There is no room on the disk of {with_uv.tree}/.layshaft (it ran full): ")


def test_registry_out_of_reach_is_said_without_naming_it(newcomer):
    for lock in start.LOCKS.values():
        shutil.copy(lock, newcomer.tree)
    # The discard port of this very machine: nothing listens there, and pip learns so at once.
    newcomer.variables |= {"PIP_INDEX_URL": "http://127.0.0.1:9/", "PIP_RETRIES": "0",
                           "PIP_CONFIG_FILE": os.devnull}
    code, out, err = newcomer.start()
    assert code == 1
    assert err == ("annotated-types could not be fetched because the package registry did not answer: check "
                   "the network or the proxy, then run the same command again.\n")
    assert "127.0.0.1" not in out + err
    assert "://" not in out + err


def test_uv_that_fails_makes_way_for_pip(newcomer):
    newcomer.get_uv("#!/bin/sh\necho 'error: dns error'\nexit 2\n")
    lacking = ("import importlib.util as u; find = u.find_spec\n"
               "u.find_spec = lambda name, *rest: None if name == 'venv' else find(name, *rest)")
    code, out, err = newcomer.start(before=lacking)
    assert code == 1
    assert out.endswith("uv could not do it; trying pip.\n")
    assert err.startswith("This Python lacks its venv module: ")


@pytest.mark.parametrize("words, beginning", [
    ("WARNING: Retrying (Retry(total=4)) after connection broken by 'NewConnectionError(': Failed to "
     "establish a new connection: [Errno -3] Temporary failure in name resolution')'\n"
     "ERROR: No matching distribution found for scipy==1.17.1",
     "scipy could not be fetched because the package registry did not answer: "),
    ("pip._vendor.urllib3.exceptions.ReadTimeoutError: Read timed out.",
     "numpy could not be fetched because the package registry did not answer: "),
    ("ERROR: Could not install packages due to an OSError: [Errno 28] No space left on device",
     "There is no room on the disk of HOME (it ran full at numpy): "),
    ("ERROR: Could not install packages due to an OSError: [Errno 13] Permission denied: 'x'",
     "Part of HOME cannot be written: "),
    ("ERROR: THESE PACKAGES DO NOT MATCH THE HASHES FROM THE REQUIREMENTS FILE.",
     "What arrived for numpy is not what was locked, so it was not installed: "),
    ("ERROR: Could not find a version that satisfies the requirement scipy==1.17.1 (from versions: 1.0)",
     "There is no scipy made ready for Python "),
    ("Segmentation fault", "The installer ended with code 9 at numpy: "),
])
def test_what_an_installer_says_becomes_one_sentence(tmp_path, words, beginning):
    with (tmp_path / "lock").open("a+b") as lock:
        installer = start.Installer(tmp_path, start.LOCKS["run"], lock)
    installer.begun = ["annotated-types", "numpy"]
    sentence = installer.explain(9, words)
    assert sentence.startswith(beginning.replace("HOME", str(tmp_path)))
    assert sentence.endswith(".")
    assert "\n" not in sentence


def test_misspelt_command_is_met_with_the_nearest(newcomer):
    assert newcomer.start("tset") == (2, "", "start.py has no command `tset`: did you mean `test`?\n")
    assert newcomer.start("xyz")[0] == 2


def test_help_needs_nothing(newcomer):
    code, out, err = newcomer.start("help")
    assert (code, err) == (0, "")
    assert out.rstrip() == start.HELP.rstrip()
    assert not (newcomer.tree / ".layshaft").exists()


def test_reader_that_leaves_early_is_no_failure(newcomer):
    reader, writer = os.pipe()
    os.close(reader)
    done = subprocess.run([sys.executable, "start.py", "help"], cwd=newcomer.tree, env=newcomer.variables,
                          stdout=writer, stderr=subprocess.PIPE, text=True)
    os.close(writer)
    assert (done.returncode, done.stderr) == (0, "")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="only on systems with /dev/full")
def test_full_disk_behind_stdout_is_said(newcomer):
    with open("/dev/full", "w", encoding="ascii") as full:
        done = subprocess.run([sys.executable, "start.py", "help"], cwd=newcomer.tree, env=newcomer.variables,
                              stdout=full, stderr=subprocess.PIPE, text=True)
    assert done.returncode == 1
    assert done.stderr == "Nothing can be written to standard output: No space left on device.\n"


def test_python_lies_where_each_system_puts_it(monkeypatch):
    folder = Path("env")
    with monkeypatch.context() as other:
        other.setattr(os, "name", "nt")
        windows = start.find_python(folder)
    assert windows == folder / "Scripts" / "python.exe"
    assert start.find_python(folder) == folder / "bin" / "python"
