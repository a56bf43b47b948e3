"""The locks pin all that is installed, with hashes, agree with pyproject.toml, and name no host."""

import re

import pytest

import start
from tests.house.tree import ROOT, read_project

PIN = re.compile(r"^([\w.-]+)==(\S+)(?: ; .+)? \\$")
HASH = re.compile(r"^    --hash=sha256:[0-9a-f]{64}(?: \\)?$")


def read_lock(name: str) -> dict[str, str]:
    """Return version by package; every line must be a comment, a pin or a hash of the pin before it."""
    pins: dict[str, str] = {}
    hashes: dict[str, int] = {}
    package = ""
    for line in (ROOT / name).read_text(encoding="utf-8").splitlines():
        if match := PIN.match(line):
            package = match.group(1)
            pins[package] = match.group(2)
        elif HASH.match(line):
            hashes[package] = hashes.get(package, 0) + 1
        else:
            assert line.startswith("#"), f"{name}: {line!r} is neither a pin nor a hash"
    assert pins.keys() == hashes.keys()
    return pins


def read_wanted(*extras: str) -> dict[str, str]:
    """Return what pyproject.toml asks for, spelled as locks spell it."""
    project = read_project()["project"]
    asked = list(project["dependencies"])
    for extra in extras:
        asked += project["optional-dependencies"][extra]
    return {name.replace(".", "-"): version for name, version in (line.split("==") for line in asked)}


@pytest.mark.parametrize("name, extras", [("requirements.txt", []), ("requirements-test.txt", ["test"])])
def test_lock_holds_what_the_project_asks_for(name, extras):
    assert read_wanted(*extras).items() <= read_lock(name).items()


def test_tests_run_on_what_is_shipped():
    assert read_lock("requirements.txt").items() <= read_lock("requirements-test.txt").items()


@pytest.mark.parametrize("name", ["requirements.txt", "requirements-test.txt"])
def test_lock_names_no_host_and_no_place(name):
    text = (ROOT / name).read_text(encoding="utf-8")
    assert not re.search(r"://|--index|--find-links|--extra|@ ", text)


def test_python_range_is_the_same_everywhere():
    project = read_project()
    oldest = ".".join(map(str, start.OLDEST))
    assert project["project"]["requires-python"] == f">={oldest}"
    assert project["tool"]["mypy"]["python_version"] == oldest
    assert project["tool"]["ruff"]["target-version"] == "py" + oldest.replace(".", "")
