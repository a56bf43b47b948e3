"""Docstrings of mechanics and gauging against the signatures: sections, names, units, sources, examples."""

import ast
import re

import pytest

from tests.house.tree import list_modules, name_of

HAS_A_UNIT = re.compile(r"\b(?:Real|float|Fraction|Decimal|NDArray|ArrayLike|ndarray|Exact|Array)\b")
UNIT = re.compile(r"\[[^]\n]+]")
IS_ESTIMATED = re.compile(r"\b(?:Real|float|NDArray|ArrayLike|ndarray)\b")
ENTRY = re.compile(r"^(\S[^\n]*)\n((?:(?:[ \t]+[^\n]*)?\n?(?=[ \t\n]|\Z))*)", re.MULTILINE)


def list_functions() -> list[tuple[str, ast.FunctionDef]]:
    """Every public function of a public module of the two rooms, with where it stands."""
    return [(f"{name_of(path)}:{node.name}", node)
            for path in list_modules("mechanics", "gauging") if not path.name.startswith("_")
            for node in ast.parse(path.read_text(encoding="utf-8")).body
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_")]


def read_sections(node: ast.FunctionDef) -> dict[str, str]:
    """The text under each underlined heading; what stands before the first is the summary."""
    parts = re.split(r"^(\w[\w ]*)\n-{3,}$", ast.get_docstring(node) or "", flags=re.MULTILINE)
    return {"": parts[0], **dict(zip(parts[1::2], parts[2::2], strict=True))}


def read_entries(section: str) -> dict[str, str]:
    """Each name that a section describes, with its type and description."""
    entries: dict[str, str] = {}
    for match in ENTRY.finditer(section.strip("\n") + "\n"):
        for name in match.group(1).split(" : ")[0].split(","):
            entries[name.strip(" *")] = match.group()
    return entries


def list_arguments(node: ast.FunctionDef) -> dict[str, str]:
    """Each argument with its annotation as written."""
    every = node.args
    arguments = [*every.posonlyargs, *every.args, every.vararg, *every.kwonlyargs, every.kwarg]
    return {one.arg: ast.unparse(one.annotation) if one.annotation else "" for one in arguments if one}


each_function = pytest.mark.parametrize(
    "node", [pytest.param(node, id=name) for name, node in list_functions()])


@each_function
def test_every_argument_is_described_with_its_unit(node):
    described = read_entries(read_sections(node).get("Parameters", ""))
    arguments = list_arguments(node)
    assert list(described) == list(arguments)
    lacking = [name for name, kind in arguments.items()
               if HAS_A_UNIT.search(kind) and not UNIT.search(described[name])]
    assert not lacking, f"no unit in brackets: {lacking}"


@each_function
def test_result_is_described_with_its_unit(node):
    returned = ast.unparse(node.returns) if node.returns else "None"
    section = read_sections(node).get("Returns") or read_sections(node).get("Yields") or ""
    assert bool(section.strip()) == (returned != "None")
    if re.match(r"(?:Real|float|Fraction|Decimal|tuple\[(?:Real|float|Fraction))\b", returned):
        assert UNIT.search(section), "no unit in brackets"


@each_function
def test_what_is_raised_is_described(node):
    raises = any(isinstance(below, ast.Raise) for below in ast.walk(node))
    assert not raises or read_sections(node).get("Raises", "").strip()


@each_function
def test_source_is_named_and_one_example_is_worked(node):
    sections = read_sections(node)
    returned = ast.unparse(node.returns) if node.returns else ""
    if IS_ESTIMATED.search(returned):  # what only compares or adds exactly needs no source
        assert sections.get("References", "").rstrip().endswith("."), "References name author, title, section"
    assert ">>>" in sections.get("Example", sections.get("Examples", "")), "one worked example"
    assert sections[""].strip().split("\n\n")[0].endswith("."), "the summary is a sentence"


def test_reader_of_docstrings_finds_what_is_missing():
    entries = read_entries("\na : float\n    One [m],\n\n    and more.\nb, c : float\n    Two.\n\n")
    assert list(entries) == ["a", "b", "c"]
    assert [bool(UNIT.search(text)) for text in entries.values()] == [True, False, False]
