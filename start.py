"""Start Layshaft; `python3 start.py help` says what this file can do.

Here: the tool's own environment is made, and the demo job, a command or the tests are started in it.
Standard library and Python 3.6 grammar only: an old Python must read far enough to say that it is too old.
"""

import contextlib
import difflib
import errno
import hashlib
import importlib.util
import os
import re
import shlex
import shutil
import subprocess
import sys
import time
from pathlib import Path
from typing import Any, BinaryIO, Iterator, List, Tuple

OLDEST, NEWEST = (3, 11), (3, 14)


def advise_newer_python(major: int, minor: int) -> str:
    """Return the sentence for someone whose Python is too old."""
    names = [f"python3.{newer}" for newer in range(NEWEST[1], OLDEST[1] - 1, -1)]
    here = [name for name in names if shutil.which(name)]
    advice = f"start with `{here[0]} start.py`" if here else "install a newer one and start again with that"
    return f"Layshaft needs Python {OLDEST[0]}.{OLDEST[1]} or newer and this is {major}.{minor}: {advice}."


if sys.version_info < OLDEST:
    sys.exit(advise_newer_python(*sys.version_info[:2]))

ROOT = Path(__file__).resolve().parent
LOCKS = {"run": ROOT / "requirements.txt", "test": ROOT / "requirements-test.txt"}
ROOM_NEEDED = {"run": 500, "test": 1100}  # megabytes on disk, measured and rounded up
DEMO_JOB = ROOT / "books" / "demo" / "job.yaml"
SHEET = "build-sheet-KL-2611-07.pdf"  # named for the demo job
PATIENCE = 900.0  # seconds to wait for another start that is making the same environment

HELP = """\
Layshaft takes a geared driveline unit from its book and your readings to a build sheet.

  python3 start.py                  make ready, take the demo job through, say where its build sheet lies
  python3 start.py shop             open the shop in a browser, on this machine; Ctrl-C closes it
  python3 start.py shop --demo      the same with invented people and jobs, in a folder of its own
  python3 start.py shop --lan       answer tablets in the same network, too; --port N takes another port
  python3 start.py run ARGS...      run a layshaft command, for example
                                      python3 start.py run check books/demo/job.yaml
  python3 start.py test             make ready and run every check and test
  python3 start.py test ARGS...     run only pytest, with these arguments
  python3 start.py help             this text

The first start makes an environment of its own, about 350 MB, and needs the network; later starts need
neither.  The first test adds what tests need, 800 MB in all; every check and test takes about 6 minutes on
two cores.  It all lies in .layshaft inside this folder or, where this folder cannot be written, among your
own data; LAYSHAFT_HOME=FOLDER puts it anywhere else.  To be rid of it, delete that folder.
"""


class Stop(Exception):
    """What keeps us from going on, as one sentence that says what to do."""


def say(sentence: str) -> None:
    """Print a line at once, so that it stands before what a child process prints."""
    try:
        print(sentence, flush=True)
    except OSError as error:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # or it fails again at the end
        if not isinstance(error, BrokenPipeError):  # a reader that left early, as head does, had enough
            raise Stop(f"Nothing can be written to standard output: {error.strerror}.") from error


def can_write(folder: Path) -> bool:
    """Say whether we may keep files in `folder`, making it if need be."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        probe = folder / f"probe-{os.getpid()}"
        probe.write_bytes(b"")
        probe.unlink()
    except OSError:
        return False
    return True


def find_data_folder() -> Path:
    """Return the folder where this system keeps a person's data, one place for each clone."""
    if sys.platform == "win32":
        base = Path(os.environ.get("LOCALAPPDATA") or Path.home() / "AppData" / "Local")
    elif sys.platform == "darwin":
        base = Path.home() / "Library" / "Application Support"
    else:
        base = Path(os.environ.get("XDG_DATA_HOME") or Path.home() / ".local" / "share")
    return base / "layshaft" / hashlib.sha256(str(ROOT).encode()).hexdigest()[:12]


def choose_home() -> Path:
    """Return the folder that holds the environment: asked for, in the clone, or among the person's data."""
    asked = os.environ.get("LAYSHAFT_HOME")
    if asked:
        return Path(asked).expanduser().resolve()
    inside = ROOT / ".layshaft"
    return inside if (inside / "env").is_dir() or can_write(inside) else find_data_folder()


def find_python(environment: Path) -> Path:
    """Return the path of the Python inside `environment`."""
    return environment / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def work_out_stamp(purpose: str) -> str:
    """Return what an environment for `purpose` is stamped with: its lock and the Python that made it."""
    lock = LOCKS[purpose].read_bytes().replace(b"\r\n", b"\n")
    return hashlib.sha256(lock + f"{sys.version} {sys.platform}".encode()).hexdigest()


def has_stamp(environment: Path, purpose: str) -> bool:
    """Say whether `environment` was made whole, for `purpose`, from this lock, by this Python."""
    try:
        found = (environment / f"stamp-{purpose}").read_bytes()
    except OSError:
        return False
    return found == work_out_stamp(purpose).encode() and find_python(environment).exists()


def make_ready(purpose: str) -> Path:
    """Return the environment's Python with what `purpose` needs installed; at once where it is already."""
    home = choose_home()
    environment = home / "env"
    if not has_stamp(environment, purpose):
        if not can_write(home):
            raise Stop(f"Nothing can be written in {home}: set LAYSHAFT_HOME to a folder that can be.")
        with hold_alone(home) as lock:
            if not has_stamp(environment, purpose):
                build(home, purpose, lock)
    return find_python(environment)


def try_lock(handle: BinaryIO) -> bool:
    """Take the lock on an open file, or say that someone else holds it."""
    try:
        if sys.platform == "win32":
            import msvcrt

            handle.seek(0)
            msvcrt.locking(handle.fileno(), msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(handle.fileno(), fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError as error:
        if error.errno in (errno.EAGAIN, errno.EACCES):
            return False
        raise Stop(f"{handle.name} cannot be locked: set LAYSHAFT_HOME to a folder that can be.") from error
    return True


@contextlib.contextmanager
def hold_alone(home: Path) -> Iterator[BinaryIO]:
    """Let one start at a time work in `home`; others wait.

    The system drops the lock when its last owner ends, however it ends, so a stale one cannot be.  Where the
    system allows, the installer inherits it: a start killed midway leaves its installer running, and nobody
    may clear the folder under it.
    """
    patience_ends = time.monotonic() + PATIENCE
    with (home / "lock").open("a+b") as handle:
        if not try_lock(handle):
            say(f"Another start is making the environment in {home}; waiting for it.")
            while not try_lock(handle):
                if time.monotonic() > patience_ends:
                    raise Stop(f"Another start has held {home} for {PATIENCE / 60:.0f} minutes: end it, then "
                               "run the same command again.")
                time.sleep(0.2)
        yield handle


def build(home: Path, purpose: str, lock: BinaryIO) -> None:
    """Make the environment in `home`, or add to it what the tests need; the stamps come last."""
    environment = home / "env"
    began = time.monotonic()
    free = shutil.disk_usage(home).free // 1000000
    if free < ROOM_NEEDED[purpose]:
        raise Stop(no_room(home, f"{free} MB are free and {ROOM_NEEDED[purpose]} are needed"))
    stamps = [environment / f"stamp-{name}" for name in LOCKS]
    found = [stamp.exists() for stamp in stamps]
    is_adding = purpose == "test" and found == [True, False] and has_stamp(environment, "run")
    if environment.exists() and not any(found):
        say("An earlier start was cut short; what it left is cleared away.")
    say(f"Adding what the tests need to {environment}." if is_adding else
        f"Making the environment in {environment}.")
    for stamp in stamps:
        stamp.unlink(missing_ok=True)
    Installer(home, LOCKS[purpose], lock).install(is_new=not is_adding)
    for name in LOCKS if purpose == "test" else ["run"]:
        (environment / f"stamp-{name}").write_bytes(work_out_stamp(name).encode())
    say(f"Ready after {time.monotonic() - began:.0f} s.")


class Installer:
    """Puts locked packages into an environment: by uv where there is one, else by pip."""

    def __init__(self, home: Path, requirements: Path, lock: BinaryIO) -> None:
        """Keep the places; nothing is touched yet."""
        self.environment = home / "env"
        self.python = str(find_python(self.environment))
        self.log = home / "install.log"
        self.lock = lock
        self.count = requirements.read_text(encoding="utf-8").count("==")
        self.options = ["--require-hashes", "--only-binary", ":all:", "-r", str(requirements)]
        self.begun: List[str] = []

    def install(self, is_new: bool) -> None:
        """Install everything, into an environment made for it if `is_new`."""
        self.log.write_bytes(b"")
        uv = shutil.which("uv")
        if uv and self.install_by_uv(uv, is_new):
            return
        if uv:
            say("uv could not do it; trying pip.")
        has_pip = not is_new and self.call([self.python, "-m", "pip", "--version"])[0] == 0
        self.install_by_pip(is_new=bool(uv) or not has_pip)

    def install_by_uv(self, uv: str, is_new: bool) -> bool:
        """Install by uv and say whether that went well."""
        if is_new:
            self.clear()
            if self.call([uv, "venv", "--quiet", "--python", sys.executable, str(self.environment)])[0]:
                return False
        say(f"Fetching and unpacking {self.count} packages with uv.")
        return self.call([uv, "pip", "install", "--python", self.python, *self.options])[0] == 0

    def install_by_pip(self, is_new: bool) -> None:
        """Install by the pip that the environment brings with it, or stop with the reason."""
        if is_new:
            if not (importlib.util.find_spec("venv") and importlib.util.find_spec("ensurepip")):
                raise Stop("This Python lacks its venv module: on Debian or Ubuntu run `apt-get install "
                           "python3-venv` as root, elsewhere install Python whole, then start again.")
            self.clear()
            code, output = self.call([sys.executable, "-m", "venv", str(self.environment)])
            if code:
                raise Stop(self.explain(code, output))
        say(f"Fetching {self.count} packages.")
        # Without --no-compile pip spends half of its time on files that are never imported.
        code, output = self.call([self.python, "-m", "pip", "install", "--no-compile", "--no-input",
                                  "--progress-bar", "off", "--disable-pip-version-check", *self.options])
        if code:
            raise Stop(self.explain(code, output))

    def clear(self) -> None:
        """Remove whatever an earlier start left."""
        if self.environment.exists():
            shutil.rmtree(self.environment)

    def call(self, command: List[str]) -> Tuple[int, str]:
        """Run an installer; its words go to the log, its progress to the person."""
        inherited: Any = {} if os.name == "nt" else {"pass_fds": (self.lock.fileno(),)}
        lines = []
        with self.log.open("a", encoding="utf-8") as log, subprocess.Popen(
                command, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                text=True, errors="replace", env=clean_variables(PIP_USER="0"), **inherited) as child:
            try:
                for line in child.stdout or ():
                    lines.append(line)
                    log.write(line)
                    self.show_progress(line)
            except BaseException:
                child.terminate()
                raise
        return child.returncode, "".join(lines)

    def show_progress(self, line: str) -> None:
        """Say which package the installer has come to."""
        begun = re.match(r"Collecting ([\w.-]+)", line)
        if begun:
            self.begun.append(begun.group(1))
            say(f"  {len(self.begun)} of {self.count}: {self.begun[-1]}")
        elif line.startswith("Installing collected packages"):
            say("Unpacking them.")

    def explain(self, code: int, output: str) -> str:
        """Return one sentence on why the installer failed and what to do, from what it printed."""
        named = re.search(r"(?:distribution found for|satisfies the requirement) ([\w.-]+)", output)
        package = named.group(1) if named else self.begun[-1] if self.begun else "pip"
        if len(self.begun) < 2 and "from versions: none" in output:
            output += "connection error"  # the first package fits any machine: nothing was reached at all
        for pattern, sentence in FAILURES:
            if re.search(pattern, output, re.IGNORECASE):
                return sentence.format(package=package, folder=self.environment.parent, here=sys.version_info)
        return (f"The installer ended with code {code} at {package}: mend what its own words in {self.log} "
                "name, then run the same command again.")


def no_room(folder: object, why: str) -> str:
    """Return the sentence on a full disk."""
    return (f"There is no room on the disk of {folder} ({why}): free some, or set LAYSHAFT_HOME to a folder "
            "on a larger disk, then start again.")


FAILURES = [
    (r"no space left|errno 28|not enough space|disk quota", no_room("{folder}", "it ran full at {package}")),
    (r"read-only file system|permission denied|errno (13|30)\b|access is denied",
     "Part of {folder} cannot be written: make it writable, or set LAYSHAFT_HOME to a folder that is, then "
     "start again."),
    (r"do not match the hashes|hash mismatch",
     "What arrived for {package} is not what was locked, so it was not installed: start again on a network "
     "that hands packages on unchanged."),
    (r"connection ?(error|refused|reset|aborted|broken)|failed to establish|name resolution|timed? ?out"
     r"|name or service not known|getaddrinfo|unreachable|max retries|proxyerror|ssl ?error|certificate"
     r"|incompleteread|protocolerror|[45]\d\d (client|server) error",
     "{package} could not be fetched because the package registry did not answer: check the network or the "
     "proxy, then run the same command again."),
    (r"no matching distribution|could not find a version",
     "There is no {package} made ready for Python {here[0]}.{here[1]} on this machine: use Python "
     f"{OLDEST[0]}.{OLDEST[1]} to {NEWEST[0]}.{NEWEST[1]} on a 64-bit Linux, macOS or Windows."),
]


def clean_variables(**more: str) -> "dict[str, str]":
    """Return the caller's environment variables without those that would lead a child to other packages."""
    led_astray = ("PYTHONPATH", "PYTHONHOME", "PYTHONSTARTUP", "VIRTUAL_ENV", "PIP_TARGET", "PIP_PREFIX")
    return {**{name: value for name, value in os.environ.items() if name not in led_astray}, **more}


def call_inside(python: Path, arguments: List[str], **more: Any) -> int:
    """Run the environment's Python on the tool's source and return an exit code."""
    # -P keeps a module that happens to lie in the current folder from being taken for one of ours.
    variables = clean_variables(PYTHONPATH=str(ROOT / "src"), **more.pop("variables", {}))
    code = subprocess.call([str(python), "-P", *arguments], env=variables, **more)
    return 128 - code if code < 0 else code


def run_demo(_: List[str]) -> int:
    """Take the demo job through and say where its build sheet lies."""
    python = make_ready("run")
    folder = choose_home() / "demo"
    say(f"Taking the demo job through: {DEMO_JOB.relative_to(ROOT)}.")
    code = call_inside(python, ["-m", "layshaft", "rebuild", str(DEMO_JOB), "--out", str(folder)])
    if code == 0:
        say(f"The build sheet lies in {folder / SHEET}")
    return code


def run_shop(arguments: List[str]) -> int:
    """Open the shop; its record lies beside the environment, the demo's apart from one's own."""
    python = make_ready("run")
    data = choose_home() / ("demo-shop" if "--demo" in arguments else "shop")
    return call_inside(python, ["-m", "layshaft.web", "--data", str(data), "--books", str(ROOT / "books"), *arguments])


def run_command(arguments: List[str]) -> int:
    """Pass the arguments to the layshaft command, and how it was called, so that its examples run as printed."""
    called = {"LAYSHAFT_CALLED": f"python3 {shlex.quote(sys.argv[0])} run"}
    return call_inside(make_ready("run"), ["-m", "layshaft", *(arguments or ["--help"])], variables=called)


def run_tests(arguments: List[str]) -> int:
    """Run every check and then the tests, or only pytest where there are arguments."""
    python = make_ready("test")
    cache = choose_home() / "cache"
    options: Any = {"cwd": ROOT, "variables": {"RUFF_CACHE_DIR": str(cache / "ruff"),
                                               "MYPY_CACHE_DIR": str(cache / "mypy"),
                                               "HYPOTHESIS_STORAGE_DIRECTORY": str(cache / "hypothesis")}}
    pytest = ["-m", "pytest", "-o", f"cache_dir={cache / 'pytest'}"]
    if arguments:
        return call_inside(python, pytest + arguments, **options)
    arrows = ["-c", "from importlinter.cli import lint_imports_command as check; check()",
              "--no-logo", "--cache-dir", str(cache / "imports")]
    checks = {"style": ["-m", "ruff", "check", "."], "types": ["-m", "mypy"], "import arrows": arrows}
    failed = []
    for name, command in checks.items():
        say(f"Checking {name}.")
        if call_inside(python, command, **options):
            failed.append(name)
    say("Running the tests.")
    code = call_inside(python, [*pytest, "-q", "-n", str(os.cpu_count() or 1)], **options)
    if failed:
        say(f"Failed before the tests, see above: {', '.join(failed)}.")
    return code or (1 if failed else 0)


def show_help(_: List[str]) -> int:
    """Print what this file can do."""
    say(HELP.rstrip())
    return 0


COMMANDS = {"": run_demo, "shop": run_shop, "run": run_command, "test": run_tests, "help": show_help,
            "--help": show_help}


def main(arguments: List[str]) -> int:
    """Do what is asked and return an exit code: 0 well, 1 stopped, 2 misused, 130 interrupted."""
    name = arguments[0] if arguments else ""
    if name not in COMMANDS:
        near = difflib.get_close_matches(name, COMMANDS, 1)
        advice = f"did you mean `{near[0]}`?" if near else "`python3 start.py help` lists what there is."
        print(f"start.py has no command `{name}`: {advice}", file=sys.stderr)
        return 2
    try:
        return COMMANDS[name](arguments[1:])
    except Stop as stop:
        sentence = str(stop)
    except KeyboardInterrupt:
        print("Stopped by you: the next start puts right whatever was left half-made.", file=sys.stderr)
        return 130
    except OSError as error:
        sentence = f"{error.filename}: {error.strerror}; mend that, then run the same command again."
        if error.errno == errno.ENOSPC:
            sentence = no_room(choose_home(), "it ran full")
    print(sentence, file=sys.stderr)
    return 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
