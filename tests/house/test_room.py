"""The house keeps its shape: known rooms, one subject a file, modules named for it."""

import ast
import warnings
from typing import Any

import pytest

from tests.house.tree import PURE_ROOMS, ROOMS, ROOT, SOURCE, list_files, list_modules, name_of, read_project

LONG, TOO_LONG = 400, 600
NAMES_OF_NOTHING = {"util", "utils", "helper", "helpers", "common", "misc", "miscellaneous", "stuff"}
SEES_THE_WORLD = {"open", "input", "print", "breakpoint", "eval", "exec"}
ASKS_THE_CLOCK = {"now", "today", "utcnow"}


def find_contract(beginning: str) -> dict[str, Any]:
    """The import contract whose name begins so."""
    contracts = read_project()["tool"]["importlinter"]["contracts"]
    return next(contract for contract in contracts if contract["name"].startswith(beginning))


def name_attribute(node: ast.expr) -> str:
    """A dotted name as written, such as np.random.default_rng, or nothing."""
    return ast.unparse(node) if isinstance(node, ast.Attribute | ast.Name) else ""


def test_every_folder_is_a_known_room():
    found = {path.name for path in SOURCE.iterdir() if path.is_dir() and path.name != "__pycache__"}
    assert found <= ROOMS, f"no room has been planned for {sorted(found - ROOMS)}"


def test_every_room_has_its_place_in_the_arrows():
    layers = find_contract("Imports run one way")
    placed = {room.strip() for layer in layers["layers"] for room in layer.split("|")}
    assert placed == ROOMS
    assert layers["exhaustive"]


def test_pure_rooms_are_those_that_the_contract_keeps_pure():
    modules = find_contract("Pure rooms")["source_modules"]
    assert {name.removeprefix("layshaft.") for name in modules} == PURE_ROOMS


@pytest.mark.parametrize("path", list_modules(*PURE_ROOMS), ids=name_of)
def test_pure_room_neither_looks_out_nor_asks_the_clock_nor_throws_dice(path):
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call):
            where = f"{name_of(path)}:{node.lineno}"
            called = name_attribute(node.func)
            last = called.rpartition(".")[2]
            assert called not in SEES_THE_WORLD, f"{where} calls {called}"
            assert "." not in called or last not in ASKS_THE_CLOCK, f"{where} asks the clock"
            if last == "default_rng":
                assert node.args, f"{where} draws without a passed seed"
            else:
                assert ".random." not in called, f"{where} draws from a source that everybody shares"


@pytest.mark.parametrize("path", [path for path in list_files() if path.suffix == ".py"], ids=name_of)
def test_file_keeps_to_one_subject(path):
    count = len(path.read_text(encoding="utf-8").splitlines())
    assert count <= TOO_LONG, f"{name_of(path)} has {count} lines: split it by subject"
    if count > LONG:
        warnings.warn(f"long file: {name_of(path)} has {count} lines", stacklevel=1)


@pytest.mark.parametrize("path", list_modules(), ids=name_of)
def test_module_is_named_for_a_subject(path):
    assert path.stem.strip("_") not in NAMES_OF_NOTHING
    assert path.stem == path.stem.lower()


@pytest.mark.parametrize("path", [path for path in list_files() if path.suffix == ".py"], ids=name_of)
def test_module_says_what_is_here(path):
    text = ast.get_docstring(ast.parse(path.read_text(encoding="utf-8")))
    assert text, f"{name_of(path)} has no docstring"
    assert text.split("\n\n")[0].rstrip().endswith((".", ":")), "a docstring begins with a sentence"


def test_tests_mirror_rooms():
    known = ROOMS | {"house", "laws", "worked", "stories", "data", "pages", "books"}
    found = {path.name for path in (ROOT / "tests").iterdir() if path.is_dir() and path.name != "__pycache__"}
    assert found <= known, f"no such kind of test: {sorted(found - known)}"
