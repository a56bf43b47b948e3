"""Job files: what is read, and what a job says that its unit and its shop do not bear out, word for word."""

from pathlib import Path

import pytest

from layshaft.book import load_book
from layshaft.book.sheet import SheetFaults, load_job, load_shop
from layshaft.book.sheet_check import check_job, check_shop_lines, narrow_shop, unit_of
from tests.book.small import BOOK, JOB_TEXT, SHOP, job, unit_for

BOOKS = Path(__file__).parents[2] / "books"


def found(more):
    sheet = job(more)
    return check_job(sheet, unit_for(sheet), SHOP.content).found


def told(more):
    return [(one.line, one.column, one.kind, one.id, one.sentence) for one in found(more)]


def test_an_unfinished_job_is_fine():
    sheet = job("")
    assert sheet.content.readings == ()
    assert check_job(sheet, unit_for(sheet), SHOP.content).found == ()


def test_figures_stay_as_typed():
    sheet = job("readings: [{part: S-2, reading: thickness, figures: [0.0787 in, 2.0 mm], gauge: micrometer 1}]\n")
    reading = sheet.content.readings[0]
    assert [figure.text for figure in reading.figures] == ["0.0787 in", "2.0 mm"]
    assert (reading.per, reading.piece, reading.new) == ("place", 1, False)


def test_a_time_is_a_day_with_hours_and_minutes():
    look = "looks: [{{part: S-1, look: face, grade: even, at: {}}}]\n"
    assert job(look.format("'2026-11-18T09:05'")).content.looks[0].at == "2026-11-18 09:05"
    with pytest.raises(SheetFaults) as caught:
        job(look.format("'yesterday, 9:05'"))
    assert [(one.line, one.found) for one in caught.value.report.faults] == [(9, "yesterday, 9:05")]


QUOTES = [
    ("{id: slip, revision: 4}", "{id: slip, revision: 3}",
     (3, 28, "another revision", "The job was done with revision 3 of the book `slip`; the one given is revision 4.")),
    ("{id: yard, revision: 2}", "{id: yard, revision: 5}",
     (4, 28, "another revision", "The job was done with revision 5 of the shop `yard`; the one given is revision 2.")),
    ("{id: slip, revision: 4}", "{id: slap, revision: 4}",
     (3, 12, "another file", "The job was done with the book `slap`; the one given is `slip`.")),
    ("opened: 2026-11-02", "opened: 2026-12-02", (6, 9, "after today", "This lies after the job's own `today`.")),
]  # fmt: skip


@pytest.mark.parametrize("old, new, expected", QUOTES)
def test_a_job_quotes_what_it_was_done_with(old, new, expected):
    sheet = load_job(JOB_TEXT.replace(old, new), "job.yaml")
    report = check_job(sheet, unit_for(sheet), SHOP.content)
    assert [(one.line, one.column, one.id, one.sentence) for one in report.faults] == [expected]


def test_a_mismatched_revision_says_what_to_do():
    sheet = load_job(JOB_TEXT.replace("revision: 4", "revision: 3"), "job.yaml")
    report = check_job(sheet, unit_for(sheet), SHOP.content)
    assert report.text() == (
        "job.yaml:3:28: fault: another revision\n"
        "  The job was done with revision 3 of the book `slip`; the one given is revision 4.\n"
        "  3 | book: {id: slip, revision: 3}\n"
        "    |                            ^\n"
        "  needed: one revision for the whole job\n"
        "  try:    look through the job again with revision 4, then write `revision: 4`\n"
        "\n"
        "job.yaml: 1 fault, no notes"
    )


def test_a_variant_that_the_book_does_not_have_names_the_nearest():
    sheet = load_job(JOB_TEXT.replace("variant: big", "variant: bigg"), "job.yaml")
    with pytest.raises(SheetFaults) as caught:
        unit_of(sheet, BOOK)
    fault = caught.value.report.faults[0]
    assert (fault.line, fault.sentence, fault.try_) == (
        5, "No variant of this book is called `bigg`.", "`big`, the nearest that is known",
    )  # fmt: skip
    sheet = job("")
    assert [one.id for one in check_job(sheet, BOOK.unit("small"), SHOP.content).faults] == ["another variant"]


LOOKS = [
    ("looks: [{part: S-22, look: heat, grade: clean}]", 16, "unknown name", "No part of this book is called `S-22`."),
    ("looks: [{part: S-2, look: heart, grade: clean}]", 27, "unknown look", "S-2 has no look `heart`."),
    ("looks: [{part: S-2, look: heat, grade: claen}]", 40, "unknown grade",
     "The look `heat` at S-2 knows no grade `claen`."),
    ("looks: [{part: S-2, look: heat, grade: clean, by: ida}]", 51, "not in shop",
     "No person of this shop is called `ida`."),
    ("looks: [{part: S-2, look: heat, grade: clean, pieces: [4, 5]}]", 59, "more pieces",
     "There are not so many of S-2: the book has 4."),
    ("looks: [{part: S-2, look: heat, grade: clean, pieces: [1, 1]}]", 59, "listed twice", "`1` is listed twice."),
    ("looks: [{part: S-2, look: heat, grade: clean, at: 2026-11-21}]", 51, "after today",
     "This lies after the job's own `today`."),
    ("intake: {noticed: [{part: S-2, is: missing, pieces: 5}]}", 53, "more pieces",
     "There are not so many of S-2: the book has 4."),
    ("wants: [S-5, S-55]", 14, "unknown name", "No part of this book is called `S-55`."),
]  # fmt: skip


@pytest.mark.parametrize("line, column, id, sentence", LOOKS)
def test_looks_are_at_what_there_is(line, column, id, sentence):
    assert told(line + "\n") == [(9, column, "fault", id, sentence)]


def test_an_unknown_word_brings_the_nearest_known():
    assert [one.try_ for one in found("looks: [{part: S-2, look: heat, grade: claen}]\n")] == [
        "`clean`, the nearest that is known"
    ]


READINGS = [
    ("{part: S-2, reading: thicknes, figures: [2 mm], gauge: micrometer 1}", 32, "fault", "unknown reading",
     "S-2 has no reading `thicknes`."),
    ("{result: rooom, figures: [11 mm], gauge: depth micrometer 1}", 20, "fault", "unknown name",
     "No result of this book is called `rooom`."),
    ("{result: twice, figures: [22 mm], gauge: depth micrometer 1}", 20, "fault", "not read directly",
     "The book does not say how `twice` would be read directly."),
    ("{part: S-2, result: room, figures: [2 mm], gauge: micrometer 1}", 11, "fault", "reading of what",
     "Nothing says for certain what was read."),
    ("{part: S-2, reading: thickness, figures: [2 N], gauge: micrometer 1}", 53, "fault", "wrong dimension",
     "The dimension is not the one that is due here."),
    ("{part: S-2, reading: thickness, figures: [2.0 ± 0.1 mm], gauge: micrometer 1}", 53, "fault", "not one figure",
     "A gauge shows one figure at a time."),
    ("{part: S-2, reading: thickness, piece: 5, figures: [2 mm], gauge: micrometer 1}", 50, "fault", "more pieces",
     "There are not so many of S-2: the book has 4."),
    ("{part: S-2, reading: thickness, per: piece, piece: 3, figures: [2 mm, 2 mm, 2 mm], gauge: micrometer 1}", 87,
     "fault", "more pieces", "There are not so many of S-2: the book has 4."),
    ("{part: S-2, reading: thickness, figures: [2 mm, 2 mm, 2 mm], gauge: micrometer 1}", 65, "fault", "more places",
     "`S-2 thickness` is read at 2 places of a piece."),
    ("{part: S-2, reading: thickness, figures: [2 mm]}", 11, "note", "no gauge",
     "Nothing says which gauge showed this, so how far to trust it is not known."),
    ("{part: S-2, reading: thickness, figures: [2 mm], gauge: micrometer 2}", 67, "fault", "not in shop",
     "No gauge of this shop is called `micrometer 2`."),
    ("{part: S-2, reading: thickness, figures: [2.0005 mm], gauge: micrometer 1}", 53, "note", "finer than gauge",
     "The figure is finer than `micrometer 1` shows."),
    ("{part: S-2, reading: thickness, figures: [2 in], gauge: micrometer 1}", 53, "note", "far from drawn",
     "The figure is far from what the book expects, as a slip of the decimal mark or of the unit would be."),
    ("{part: S-2, reading: thickness, figures: [2 mm], gauge: micrometer 1, temperature: 44 °C}", 94, "note",
     "far from reference",
     "This was read at 44 °C, 24 K from the reference of 20 °C: steel and alloy have grown or shrunk."),
    ("{part: S-1, reading: bore, figures: [40.01 mm], gauge: micrometer 1}", 66, "note", "gauge class",
     "The book asks for another class of gauge here."),
]  # fmt: skip


@pytest.mark.parametrize("entry, column, kind, id, sentence", READINGS)
def test_readings_are_of_what_can_be_read(entry, column, kind, id, sentence):
    assert told(f"readings: [{entry}]\n") == [(9, column + 1, kind, id, sentence)]


def test_a_gauge_shows_its_own_kind_of_figure():
    text = "readings: [{part: S-2, reading: thickness, figures: [2 mm], gauge: spring tester 1}]\n"
    assert [one.id for one in found(text)] == ["gauge shows otherwise", "gauge class"]


def test_an_overdue_gauge_is_told_for_the_day_it_was_used():
    text = "readings: [{{result: room, figures: [11 mm], gauge: depth micrometer 1, at: {}}}]\n"
    assert told(text.format("2026-11-04")) == [], "it was not due yet"
    assert told(text.format("2026-11-06")) == [
        (9, 52, "note", "gauge overdue",
         "`depth micrometer 1` was due to be held to a standard on 2026-11-05, before this was read on 2026-11-06."),
    ]  # fmt: skip


def test_a_confirmed_figure_is_not_doubted():
    text = "readings: [{part: S-2, reading: thickness, figures: [2 in], gauge: micrometer 1, confirmed: true}]\n"
    assert told(text) == []


def test_repeats_of_a_single_place_are_no_fault():
    text = "readings: [{result: room, figures: [11 mm, 11 mm], gauge: depth micrometer 1, at: 2026-11-04}]\n"
    assert told(text) == []


def test_a_warm_bench_is_told_once():
    text = JOB_TEXT.replace("temperature: 21 °C", "temperature: 31 °C")
    sheet = load_job(text, "job.yaml")
    report = check_job(sheet, unit_for(sheet), SHOP.content)
    assert [(one.line, one.id) for one in report.found] == [(8, "far from reference")]
    assert ", 11 K from the reference of 20 °C" in report.found[0].sentence


def test_how_far_a_bench_is_off_is_told_in_the_shop_s_units() -> None:
    sheet = load_job(JOB_TEXT.replace("temperature: 21 °C", "temperature: 110 °F"), "job.yaml")
    for units, told in (("metric", "23.3 K"), ("inch", "42 °F")):
        shop = SHOP.content.model_copy(update={"units": units})
        (found,) = (one for one in check_job(sheet, unit_for(sheet), shop).found if one.id == "far from reference")
        assert f"at 110 °F, {told} from the reference" in found.sentence


EVENTS = [
    ("done: [{off: S-4, seen: S-4, is: broken}]", 8, "one thing", "An entry here says one thing."),
    ("done: [{by: kim}]", 8, "one thing", "An entry here says one thing."),
    ("done: [{off: S-44}]", 14, "unknown name", "No part of this book is called `S-44`."),
    ("done: [{off: S-4, way: 2}]", 24, "no such way", "S-4 has no way number 2."),
    ("done: [{off: S-4, release: 1}]", 19, "goes with another", "`release` does not belong to an entry with `off`."),
    ("done: [{partly: S-2, pieces off: 5}]", 34, "more pieces", "There are not so many of S-2: the book has 4."),
    ("done: [{partly: S-2, pieces off: 4}]", 34, "off altogether", "All 4 of S-2 are off, not some of them."),
    ("done: [{partly: S-2}]", 8, "missing key", "The key `pieces off` is missing here."),
    ("done: [{turned: upside down}]", 17, "unknown name", "No attitude of this book is called `upside down`."),
    ("done: [{held: spring}]", 15, "names nothing", "No load of this book is called `spring`."),
    ("done: [{off: S-4, by: kim, countersigned: kim}]", 43, "countersigned by the same", "kim signed this too."),
    ("choices: [{renew: S-5, keep: S-5, by: kim}]", 11, "one thing", "An entry here says one thing."),
    ("choices: [{keep: S-5, by: someone}]", 27, "not in shop", "No person of this shop is called `someone`."),
    ("choices: [{fit: S-3, by: kim}]", 11, "missing key", "The key `size` is missing here."),
    ("choices: [{fit: S-2, size: 2 mm, by: kim}]", 17, "not selective", "S-2 comes in one size only."),
    ("choices: [{fit: S-3, size: 2 N, by: kim}]", 28, "wrong dimension",
     "The dimension is not the one that is due here."),
    ("choices: [{fit: S-3, size: 1.05 mm, by: kim}]", 28, "size nowhere",
     "S-3 does not come in 1.05 mm: none is in the drawer, and the unit has none that reads so."),
    ("choices: [{fit: S-3, size: 1.00 in, by: kim}]", 28, "size nowhere",
     "S-3 does not come in 1.00 in: none is in the drawer, and the unit has none that reads so."),
    ("choices: [{keep: S-3, size: 1 mm, by: kim}]", 23, "goes with another",
     "`size` does not belong to an entry with `keep`."),
    ("proved: [{proof: turn, outcome: held}]", 18, "unknown name", "No proof of this book is called `turn`."),
    ("proved: [{proof: turns}]", 10, "no outcome", "The proof says neither what was read nor whether it held."),
]  # fmt: skip


@pytest.mark.parametrize("line, column, id, sentence", EVENTS)
def test_what_happened_is_told_one_thing_at_a_time_of_what_there_is(line, column, id, sentence):
    assert told(line + "\n") == [(9, column, "fault", id, sentence)]


@pytest.mark.parametrize(
    "line, id, sentence",
    [
        ("choices: [{renew: S-6, by: customer}]", "not sold", "S-6 is not sold by itself: it comes in S-5."),
        ("looks: [{part: S-1, look: face, grade: even, at: 2026-10-30}]", "before opened",
         "This lies before the job was opened."),
    ],
)  # fmt: skip
def test_what_is_odd_but_may_be_so_is_a_note(line, id, sentence):
    assert [(one.kind, one.id, one.sentence) for one in found(line + "\n")] == [("note", id, sentence)]


def test_what_a_later_moment_before_it_overrules_is_a_note():
    look = "looks: [{{part: S-1, look: face, grade: even, at: {}}}, {{part: S-1, look: face, grade: even, at: {}}}]\n"
    (note,) = found(look.format("2026-11-18", "2026-11-17"))
    assert (note.kind, note.id, note.found) == ("note", "out of order", "2026-11-17")
    assert note.sentence.endswith("stands before it: the one of 2026-11-18 counts.")
    assert note.path == ("looks", 1, "at")
    assert found(look.format("2026-11-17", "2026-11-18")) == ()
    assert found(look.format("2026-11-18", "'2026-11-18 09:05'")) == ()


def test_readings_and_proofs_out_of_order_are_noted_piece_by_piece():
    reading = "  - {{part: S-2, reading: thickness, per: piece, piece: {}, figures: [{}], at: {}}}\n"
    later, two = reading.format(2, "2.000 mm", "2026-11-18"), "2.000 mm, 2.000 mm"
    for piece, figures, count in ((1, two, 1), (1, "2.000 mm", 0), (2, "2.000 mm", 1)):
        notes = found(f"readings:\n{later}{reading.format(piece, figures, '2026-11-17')}")
        assert sum(one.id == "out of order" for one in notes) == count


def test_the_customer_may_choose():
    assert told("choices: [{keep: S-5, by: customer}]\n") == []


def test_the_demonstration_job_has_only_the_notes_it_means_to_have():
    book = load_book((BOOKS / "overtop" / "book.yaml").read_text(encoding="utf-8"), "book.yaml")
    shop = load_shop((BOOKS / "demo" / "shop.yaml").read_text(encoding="utf-8"), "shop.yaml")
    sheet = load_job((BOOKS / "demo" / "job.yaml").read_text(encoding="utf-8"), "job.yaml")
    unit = unit_of(sheet, book)
    report = check_job(sheet, unit, shop.content)
    assert report.is_clean
    # The bore gauge is overdue for all four bores it read; the bearing bore was read warm as well.
    assert sorted(one.id for one in report.notes) == ["far from reference", *["gauge overdue"] * 4]
    assert not check_shop_lines(shop, book).found
    assert narrow_shop(shop.content, book, "OT6").drawer["OT-041"].count == 1
    looked = {look.part for look in sheet.content.looks}
    assert looked == {name for name, part in unit.parts.items() if part.looks}, "a look at every part that has one"
