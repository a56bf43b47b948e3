"""Docs keep up with the code: links lead somewhere, every page is listed, commands that are shown exist."""

import re

import pytest

import start
from tests.house.tree import ROOMS, ROOT, list_files, name_of

PAGES = [path for path in list_files() if path.suffix == ".md"]
DECISIONS = sorted((ROOT / "docs" / "decisions").glob("[0-9]*.md"))
KINDS_OF_CHANGE = ["added", "changed", "fixed", "removed"]


@pytest.mark.parametrize("page", PAGES, ids=name_of)
def test_links_lead_somewhere(page):
    for target in re.findall(r"\]\(([^)\s#]+)(?:#[^)]*)?\)", page.read_text(encoding="utf-8")):
        if not re.match(r"[a-z]+:", target):
            assert (page.parent / target).exists(), f"{name_of(page)} links to {target}, which is not there"


def test_index_lists_every_page():
    index = (ROOT / "docs" / "README.md").read_text(encoding="utf-8")
    pages = [path for path in PAGES if path.is_relative_to(ROOT / "docs") and path.name != "README.md"]
    names = [path.relative_to(ROOT / "docs").as_posix() for path in pages]
    missing = [name for name in names if f"]({name})" not in index]
    assert not missing, f"docs/README.md does not list {missing}"


@pytest.mark.parametrize("page", PAGES, ids=name_of)
def test_commands_that_are_shown_exist(page):
    shown = re.findall(r"python3 start\.py(?: +([a-z-]+))?", page.read_text(encoding="utf-8"))
    assert set(shown) <= {"", *start.COMMANDS}


def test_front_page_has_the_two_commands_and_every_room():
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    commands = {line.split("#")[0].strip() for line in text.splitlines()}
    assert {"python3 start.py", "python3 start.py test"} <= commands
    for room in ROOMS:
        assert f"src/layshaft/{room}/" in text, f"README.md does not show the room {room}"


def test_help_and_tour_know_every_command_and_room():
    for name in start.COMMANDS:
        assert name.startswith("--") or f"python3 start.py {name}".strip() in start.HELP
    tour = (ROOT / "docs" / "architecture.md").read_text(encoding="utf-8")
    assert not [room for room in ROOMS if f"`{room}`" not in tour]


@pytest.mark.parametrize("page", DECISIONS, ids=name_of)
def test_decision_says_why(page):
    text = page.read_text(encoding="utf-8")
    assert re.match(rf"# {int(page.name[:4])}\. \S", text), "the title carries the page's number"
    assert re.findall(r"^## (.+)$", text, re.MULTILINE) == ["Context", "Options", "Choice", "Consequences"]


def test_no_two_decisions_share_a_number():
    numbers = [page.name[:4] for page in DECISIONS]
    assert len(numbers) == len(set(numbers)) > 0


def test_changelog_waits_for_a_release():
    text = (ROOT / "CHANGELOG.md").read_text(encoding="utf-8")
    assert re.search(r"^## Unreleased$", text, re.MULTILINE)


@pytest.mark.parametrize("path", sorted((ROOT / "changes").glob("*")), ids=name_of)
def test_fragment_is_a_sentence_of_a_known_kind(path):
    if path.name == "README.md":
        return
    kinds = "|".join(KINDS_OF_CHANGE)
    assert re.fullmatch(rf"[a-z0-9-]+\.({kinds})\.md", path.name), f"name it subject.kind.md: {kinds}"
    text = path.read_text(encoding="utf-8").strip()
    assert text[:1].isupper() and text.endswith("."), f"{path.name} is no sentence"
    assert len(text) < 500, "a fragment is a line or two: the docs have the rest"


def test_nothing_in_the_tree_points_out_of_it():
    links = [path for path in list_files() if path.is_symlink()]
    assert not [name_of(path) for path in links if not path.resolve().is_relative_to(ROOT)]
