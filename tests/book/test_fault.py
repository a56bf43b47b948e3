"""A fault in words and in data; a report in file order."""

import json

from layshaft.book.fault import Fault, FaultReport
from layshaft.book.message import fault

ONE = Fault(
    "figure", "The figure cannot be read.", ("parts", "A", "mass"), "0.06", "a mass", "writing kg", variants=("big",)
).at("book.yaml", 7, 11, "    mass: 0.06")


def test_words():
    assert ONE.text() == (
        "book.yaml:7:11: fault: figure\n"
        "  The figure cannot be read.\n"
        "  7 |     mass: 0.06\n"
        "    |           ^^^^\n"
        "  found:  0.06\n"
        "  needed: a mass\n"
        "  try:    writing kg\n"
        "  in:     big"
    )


def test_what_the_sentence_says_is_not_said_again():
    assert "found:" not in fault("unknown key", found="klass").at("b", 1, 1, "klass: cap").text()


def test_a_long_line_is_cut_to_the_place():
    line = "x" * 200 + ", wrong, " + "y" * 200
    shown, caret = Fault("a", "b", found="wrong").at("f", 1, 203, line).text().splitlines()[2:4]
    assert len(shown) < 120
    assert shown[caret.index("^") : caret.rindex("^") + 1] == "wrong"


def test_found_in_the_middle_of_a_value_is_underlined_there():
    line = "  ring: {a: SH-10 grove, b: SH-20 grove}"
    shown, caret = Fault("a", "b", found="grove").at("f", 1, 13, line).text().splitlines()[2:4]
    assert caret.index("^") == shown.index("grove")


def test_a_report_is_in_file_order_and_tells_notes_from_faults():
    note = Fault("mass", "It differs.", kind="note").at("book.yaml", 2, 1, "mass: 1 kg")
    report = FaultReport.of("book.yaml", [ONE, note])
    assert report.found == (note, ONE)
    assert not report.is_clean
    assert FaultReport.of("book.yaml", [note]).is_clean
    assert report.text().endswith("\n\nbook.yaml: 1 fault, 1 note")


def test_data():
    data = json.loads(FaultReport.of("book.yaml", [ONE]).json())
    assert data["clean"] is False
    assert data["found"] == [{
        "kind": "fault", "id": "figure", "file": "book.yaml", "line": 7, "column": 11,
        "path": ["parts", "A", "mass"], "sentence": "The figure cannot be read.", "found": "0.06",
        "needed": "a mass", "try": "writing kg", "variants": ["big"], "written": "    mass: 0.06",
    }]
