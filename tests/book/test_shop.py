"""Shop files: what is read, each fault with its place and words, and what one variant sees of drawer and prices."""

from pathlib import Path

import pytest

from layshaft.book import load_book
from layshaft.book.definition.part import sold_id
from layshaft.book.fault import MORE
from layshaft.book.sheet import SheetFaults, load_shop
from layshaft.book.sheet_check import check_shop, check_shop_lines, check_shop_text, narrow_shop, split_line
from tests.book.small import BOOK, BOOK_TEXT, SHOP_TEXT

BOOKS = Path(__file__).parents[2] / "books"


def load(old="", new="", text=SHOP_TEXT):
    assert old in text
    return load_shop(text.replace(old, new, 1), "shop.yaml")


def told(report):
    return [(one.line, one.column, one.kind, one.id, one.sentence) for one in report.found]


def test_a_shop_is_read_as_written():
    shop = load().content
    assert str(shop.labour_rate) == "90.00 CUR"
    assert shop.drawer["S-3"].sizes == {"1.0 mm": 1}
    assert [size.text for size in shop.drawer["S-2"].measured] == ["1.98 mm", "1.97 mm"]
    assert shop.drawer["S-2"].pieces == 1, "used pieces are not counted with the new ones"
    assert shop.people["ada"].role == "apprentice"
    assert check_shop(load()).is_clean


@pytest.mark.parametrize(
    "old, new, line, id, sentence",
    [
        ("layshaft shop: 1", "layshaft book: 1", 1, "another kind of file",
         "This is a book file, where a shop file is due."),
        ("labour rate: 90.00 CUR", "labor rate: 90.00 CUR", 8, "unknown key", "Nothing here is called `labor rate`."),
        ("labour rate: 90.00 CUR", "labour rate: 90", 8, "figure",
         "The figure cannot be read as it stands: not an amount."),
        ("{1.0 mm: 1}", "{1.0: 1}", 22, "figure", "The figure cannot be read as it stands: missing unit."),
        ("temperature band: 4 K", "temperature band: 4 mm", 12, "figure",
         "The figure cannot be read as it stands: wrong dimension."),
        ("from: 2026-01-01", "from: 1.1.2026", 25, "form",
         "Something of another form is due here."),
        ("role: owner", "role: boss", 14, "unknown word", "`boss` is not one of the words that are known here."),
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_told_where_it_stands(old, new, line, id, sentence):
    with pytest.raises(SheetFaults) as caught:
        load(old, new)
    assert (line, id, sentence) in [(one.line, one.id, one.sentence) for one in caught.value.report.faults]


def test_all_faults_come_at_once_in_file_order():
    text = SHOP_TEXT
    for old, new in (("role: owner", "role: boss"), ("due: 2027-01-01", "due: 2027"), ("lead: 3 days", "lead: 3")):
        text = text.replace(old, new)
    with pytest.raises(SheetFaults) as caught:
        load(text=text)
    assert [one.line for one in caught.value.report.faults] == [14, 17, 27]


def test_a_report_that_stopped_at_the_form_says_so():
    """The currency would be another fault, which is looked at once the form holds."""
    amiss = SHOP_TEXT.replace("labour rate: 90.00 CUR", "labour rate: 90.00 XYZ")
    assert check_shop(load(text=amiss)).is_partial is False
    with pytest.raises(SheetFaults) as caught:
        load(text=amiss.replace("role: owner", "role: boss"))
    report = caught.value.report
    assert report.is_partial
    assert report.data()["partial"] is True
    assert report.text().splitlines()[-2:] == ["shop.yaml: 1 fault, no notes", MORE]
    with pytest.raises(SheetFaults) as caught:
        load("layshaft shop: 1", "layshaft job: 1")
    assert not caught.value.report.is_partial, "of another kind of file nothing more is ever looked at"


@pytest.mark.parametrize(
    "old, new, expected",
    [
        ("labour rate: 90.00 CUR", "labour rate: 90.00 XYZ",
         (8, 14, "fault", "currency", "This shop reckons in CUR, and no other currency is changed into it.")),
        ("currency: CUR", "currency: Taler", (7, 11, "fault", "no currency", "`Taler` is no currency.")),
        ("cost: 1.20 CUR", "cost: -1.20 CUR", (31, 35, "fault", "below nothing", "This cannot be below nothing.")),
        ("percent: 8.25", "percent: 108.25", (10, 16, "fault", "percentage", "This is no percentage of a whole.")),
        ("u95: 0.010 mm, step: 0.005 mm", "u95: 0.010 mm, step: 5 N",
         (18, 70, "fault", "wrong dimension", "The dimension is not the one that is due here.")),
        ("u95 percent: 1.5,", "u95 percent: 1.5, u95: 3 N,",
         (19, 56, "fault", "gauge told twice", "Two figures say how wrong `spring tester 1` can be.")),
        ("u95 percent: 1.5, ", "",
         (19, 20, "note", "gauge untold",
          "Nothing says how wrong `spring tester 1` can be, so no reading of it can be weighed.")),
        ("due: 2027-01-01", "calibrated: 2027-02-01, due: 2027-01-01",
         (17, 97, "fault", "due before calibrated", "`micrometer 1` is due before it was last held to a standard.")),
        ("S-3: {sizes: {1.0 mm: 1}}", "S-3: {sizes: {1.0 mm: 1}, count: 2}",
         (22, 36, "fault", "counted and sized", "A part of several sizes is counted by size.")),
        ("S-7: {count: 3}", "S-7: {}",
         (23, 8, "fault", "nothing counted", "Nothing says what the drawer holds of S-7.")),
        ("S-7: {count: 3}", "S-7 where: {count: 3}",
         (23, 3, "fault", "line name", "`S-7 where` names no line of a drawer or a price list.")),
        ("from: 2026-11-10\n    source: Dray Street bearings", "from: 2026-01-01\n    source: Tarnwick parts counter",
         (37, 11, "fault", "listed from twice", "Two price lists of Tarnwick parts counter begin on 2026-01-01.")),
        ("cost: 12.50 CUR", "cost: 22.50 CUR",
         (40, 36, "note", "cost over list", "S-8 costs the shop more than it asks for it.")),
    ],
)  # fmt: skip
def test_what_a_shop_says_has_to_agree(old, new, expected):
    assert told(check_shop(load(old, new))) == [expected]


def test_presses_have_something_to_press_with():
    press = (
        "presses:\n  arbor: {ram area: 0 cm², rating: 20 kN, return force: 0 N, stroke: 90 mm, daylight: 300 mm,\n"
        "          gauge: {range: 10 MPa, step: 20 MPa}}\n"
    )
    assert told(check_shop(load(text=SHOP_TEXT + press))) == [
        (42, 21, "fault", "nothing", "This has to be more than nothing."),
        (43, 40, "fault", "over its range", "This is more than the whole range of the gauge, 10 MPa."),
    ]


@pytest.mark.parametrize(
    ("figures", "told_of"),
    [
        ("ram area: 12 ± 12 cm², rating: 20 kN, return force: 0 N, gauge: {range: 10 MPa}", "nothing"),
        ("ram area: 12 cm², rating: 20 kN, return force: -1 N, gauge: {range: 10 MPa}", "below nothing"),
        ("ram area: 12 cm², rating: 20 kN, return force: 0 N, gauge: {range: 0 MPa}", "nothing"),
    ],
)
def test_no_press_figure_ends_at_nothing(figures, told_of):
    press = f"presses:\n  arbor: {{stroke: 90 mm, daylight: 300 mm, {figures}}}\n"
    assert [one.id for one in check_shop(load(text=SHOP_TEXT + press)).found] == [told_of]


@pytest.mark.parametrize(
    "old, new, expected",
    [
        ("S-5 where size small", "S-5 where size tiny",
         (33, 7, "fault", "unknown choice", "`tiny` is not a choice of `size`.")),
        ("S-5 where size small", "S-5 where length small",
         (33, 7, "fault", "not a condition", "`length small` is not a condition on the options of this book.")),
        ("S-5 where size small", "S-5 where size small or big",
         (33, 7, "fault", "lines overlap",
          "More than one line of S-5 holds in big: `S-5 where size big`, `S-5 where size small or big`.")),
        ("S-7: {count: 3}", "S-6: {count: 3}",
         (23, 3, "note", "not sold", "S-6 is not sold by itself: it comes in `S-5`.")),
        ("{1.0 mm: 1}", "{1.05 mm: 1}", (22, 17, "note", "size not sold", "S-3 does not come in 1.05 mm.")),
        ("S-3: {sizes: {1.0 mm: 1}}", "S-3: {count: 2}",
         (22, 3, "note", "unsized", "S-3 comes in several sizes; which these are is not said.")),
    ],
)  # fmt: skip
def test_a_drawer_is_held_against_the_book_it_is_for(old, new, expected):
    assert told(check_shop_lines(load(old, new), BOOK)) == [expected]


def test_lines_of_another_book_are_left_alone_until_all_books_are_at_hand():
    text = SHOP_TEXT.replace("S-7: {count: 3}", "S-77 where case iron: {count: 3}")
    assert not check_shop_lines(load(text=text), BOOK).found
    assert not check_shop_text(text, "shop.yaml").found
    report = check_shop_text(text, "shop.yaml", [BOOK])
    assert told(report) == [(23, 3, "note", "in no book", "No book at hand has a part or a kit `S-77`.")]
    assert report.found[0].try_ == "`S-7`, the nearest that is known"


def test_what_several_places_share_is_named_by_the_id_it_is_sold_by():
    changed = BOOK_TEXT.replace("S-7: {name: Front bearing,", "S-7: {name: Front bearing, sold as: S-70,")
    text = SHOP_TEXT.replace("S-7: {count: 3}", "S-70: {count: 3}").replace("      S-7: {list", "      S-70: {list")
    book = load_book(changed, "slip.yaml")
    assert told(check_shop_text(text, "shop.yaml", [book])) == []
    narrowed = narrow_shop(load_shop(text, "shop.yaml").content, book, "big")
    assert (narrowed.drawer["S-70"].count, str(narrowed.prices[0].parts["S-70"].list_)) == (3, "21.00 CUR")
    report = check_shop_lines(load_shop(SHOP_TEXT, "shop.yaml"), book)
    assert [one.sentence for one in report.found] == ["S-7 is a place: what goes there is sold as `S-70`."] * 2


def test_a_line_names_a_part_and_perhaps_a_condition():
    assert split_line("S-5 where size big or small and drum long") == ("S-5", "size big or small and drum long")
    assert split_line("S-5") == ("S-5", None)
    assert split_line("plate kit where size big") == ("plate kit", "size big")
    assert split_line("S-5 where") is None
    assert split_line(" where size big") is None


def test_one_variant_sees_plain_names_and_its_own_lines():
    shop = load().content
    big, small = (narrow_shop(shop, BOOK, variant) for variant in ("big", "small"))
    assert str(big.prices[0].parts["S-5"].list_) == "410.00 CUR"
    assert str(small.prices[0].parts["S-5"].list_) == "330.00 CUR"
    assert set(big.drawer) == {"S-2", "S-3", "S-7"}
    assert big.labour_rate == shop.labour_rate


def test_the_demonstration_shop_agrees_with_itself_and_with_every_shipped_book():
    sheet = load_shop((BOOKS / "demo" / "shop.yaml").read_text(encoding="utf-8"), "shop.yaml")
    assert not check_shop(sheet).found
    for path in sorted(BOOKS.glob("*/book.yaml")):
        book = load_book(path.read_text(encoding="utf-8"), path.name)
        assert not check_shop_lines(sheet, book).found
        for variant, unit in book.units.items():
            seen = narrow_shop(sheet.content, book, variant)
            priced = {part for prices in seen.prices for part in prices.parts}
            sold = {sold_id(unit.parts, name) for name, part in unit.parts.items() if part.served_in is None}
            assert sold <= priced, f"{book.id} {variant}: no price for {sorted(sold - priced)}"
            unsold = {name for name, part in unit.parts.items() if part.served_in or sold_id(unit.parts, name) != name}
            assert not unsold & priced
