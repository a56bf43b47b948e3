"""The command line: what it prints, where, and with which exit code; no traceback for anything a person types."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from pypdf import PdfReader

from layshaft.cli import main

ROOT = Path(__file__).resolve().parents[2]
OVERTOP = str(ROOT / "books" / "overtop" / "book.yaml")
JOB = str(ROOT / "books" / "demo" / "job.yaml")


@pytest.mark.parametrize(
    "name", ["overtop/book.yaml", "twinpath/book.yaml", "layline/book.yaml", "demo/shop.yaml", "demo/job.yaml"]
)
def test_everything_that_is_shipped_checks_clean(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(ROOT / "books" / name)]) == 0
    assert "no faults" in capsys.readouterr().out


def test_a_faulty_book_gives_one_and_every_fault(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "book.yaml"
    path.write_text(
        Path(OVERTOP).read_text(encoding="utf-8").replace("lies in: OT-050", "lies in: OT-05O", 1), encoding="utf-8"
    )
    assert main(["check", str(path), "--json"]) == 1
    found = json.loads(capsys.readouterr().out)
    assert not found["clean"]
    assert any(one["found"] == "OT-05O" and one["try"] for one in found["found"])


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["check", "nowhere.yaml"], "There is no file nowhere.yaml."),
        (["teardown", OVERTOP], "overtop has the variants OT4, OT5, OT6. Say which with --variant."),
        (["teardown", OVERTOP, "--variant", "OT7"], "overtop has no variant `OT7`; it has OT4, OT5, OT6."),
        (
            ["teardown", OVERTOP, "--variant", "OT6", "--to", "OT-0400"],
            "overtop OT6 has no part `OT-0400`. Did you mean OT-040",
        ),
    ],
)
def test_misuse_gives_two_and_a_sentence(words: list[str], sentence: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(words) == 2
    told = capsys.readouterr()
    assert told.err.startswith(sentence)
    assert told.out == ""


def test_no_command_prints_help_and_gives_two(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([]) == 2
    assert "teardown" in capsys.readouterr().out


def test_teardown_says_why_and_what_would_happen_instead(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["teardown", OVERTOP, "--variant", "OT5"]) == 0
    told = " ".join(capsys.readouterr().out.split())
    assert "Take up direct spring in the press" in told
    assert "OT-043 first: direct spring: lets go 9.7 J" in told
    assert "No order does with less." in told


def test_assembly_as_json(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["assembly", OVERTOP, "--variant", "OT4", "--json"]) == 0
    steps = json.loads(capsys.readouterr().out)["steps"]
    assert {"prepare", "fit", "compress", "let home", "prove"} <= {step["kind"] for step in steps}
    assert steps[0]["kind"] == "prepare"


@pytest.mark.parametrize("kind", ["book", "shop", "job"])
def test_schemas_are_json(kind: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["schema", kind]) == 0
    assert json.loads(capsys.readouterr().out)["$schema"].endswith("2020-12/schema")


def test_the_demo_job_gives_a_build_sheet(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["rebuild", JOB, "--out", str(tmp_path)]) == 0
    pdf = tmp_path / "build-sheet-KL-2611-07.pdf"
    assert str(pdf) in capsys.readouterr().out
    first = pdf.read_bytes()
    data = json.loads(pdf.with_suffix(".json").read_text(encoding="utf-8"))
    text = " ".join(" ".join(page.extract_text() for page in PdfReader(pdf).pages).split())
    for fit in data["sheet"]["fits"]:
        assert fit["name"] in text
    for proof in data["sheet"]["proofs"]:
        assert proof["name"] in text
    assert "OT-053" in {row["part"] for row in data["sheet"]["orders"]}
    assert main(["rebuild", JOB, "--out", str(tmp_path)]) == 0
    assert pdf.read_bytes() == first


def test_a_sheet_is_not_written_where_it_may_not_be(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "file").write_text("in the way")
    assert main(["rebuild", JOB, "--out", str(tmp_path / "file" / "sheets")]) == 2
    assert "cannot be written" in capsys.readouterr().err


HALF_APART = """\
layshaft job: 1
id: T-3
invented: true
book: {id: twinpath, revision: 1}
shop: {id: kettle-lane, revision: 3}
variant: TP2
opened: 2026-11-23
today: 2026-11-25
done: [{off: TP-094}, {off: TP-093}]
"""


@pytest.fixture
def half_apart(tmp_path: Path) -> str:
    """A job whose rear retainer is off."""
    shop = ROOT / "books" / "demo" / "shop.yaml"
    (tmp_path / "shop.yaml").write_text(shop.read_text("utf-8"), encoding="utf-8")
    path = tmp_path / "job.yaml"
    path.write_text(HALF_APART, encoding="utf-8")
    return str(path)


def test_a_job_is_taken_down_from_the_state_it_is_in(half_apart: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["teardown", half_apart]) == 0
    text = capsys.readouterr().out
    assert text.startswith("Teardown T-3, Twinpath two-speed transfer case TP2, from the state it is in\n")
    assert "TP-012 Case bolt" in text
    assert "TP-093 Rear retainer," not in text
    assert main(["teardown", half_apart, "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert {"now", "loaded", "steps"} < set(data)
    assert "TP-093" not in [part for step in data["steps"] if step["kind"] == "take off" for part in step["parts"]]


@pytest.mark.parametrize("flag", [["--to", "TP-096"], ["--variant", "TP2"], ["--open", "TP-030"]])
def test_what_a_job_says_itself_is_not_said_beside_it(
    half_apart: str, flag: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["teardown", half_apart, *flag]) == 2
    assert capsys.readouterr().err.startswith("A job says itself which variant it is")


def test_a_book_has_no_shop_file(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["teardown", OVERTOP, "--variant", "OT6", "--shop", "shop.yaml"]) == 2
    assert "is no job file" in capsys.readouterr().err
