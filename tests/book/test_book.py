"""A whole book: its variants, what they share, and that a faulty one is never used."""

from hashlib import sha256

import pytest

from layshaft.book import BookFaults, check_book, load_book
from layshaft.book.book import UnknownVariant
from layshaft.book.option import SOLE_VARIANT
from tests.stories.story import example

TEXT = example()
HEAD = """\
layshaft book: 1
id: pair
name: Pair
maker: Tarnwick Gear Works
revision: 3
dated: 2026-10-01
base: A
starts: up
attitudes: [up]
axes: {main: {start: front, end: rear}}
"""
PARTS = "parts: {A: {name: a, class: case, mass: 1 kg}, B: {name: b, class: lid, mass: 1 kg}}\n"


def test_book_says_what_it_was_read_from():
    book = load_book(TEXT, "slip-hub.yaml")
    assert (book.id, book.name, book.revision) == ("slip-hub", "slip-hub.yaml", 1)
    assert book.sha256 == sha256(TEXT.encode()).hexdigest()
    assert load_book(TEXT.encode(), "slip-hub.yaml").sha256 == book.sha256
    assert book.options == {"size": ("small", "large")}
    assert book.variants["SH-L"].answers == {"size": "large"}
    assert book.unit("SH-L").variant == "SH-L"
    assert book.unit("SH-L").cues == ("three friction plates",)


def test_an_unknown_variant_is_told_with_those_that_there_are():
    told = r"^slip-hub has no variant `SH-M`; it has SH-S, SH-L\. Did you mean SH-"
    with pytest.raises(UnknownVariant, match=told) as it:
        load_book(TEXT, "slip-hub.yaml").unit("SH-M")
    assert it.value.known == ("SH-S", "SH-L")


def test_what_does_not_vary_is_the_same_object_in_every_variant():
    small, large = load_book(TEXT, "b").units.values()
    assert small.parts["SH-20"] is large.parts["SH-20"]
    assert small.parts["SH-10"] is not large.parts["SH-10"]


def test_a_book_without_options_has_one_variant():
    assert list(load_book(HEAD + PARTS, "b").units) == [SOLE_VARIANT]


def test_a_faulty_book_is_never_used():
    with pytest.raises(BookFaults) as refusal:
        load_book(TEXT.replace("mass: 0.06 kg", "mass: 0.06"), "b")
    assert [one.id for one in refusal.value.report.faults] == ["figure"]


def test_a_fault_in_one_variant_keeps_the_whole_book_back():
    report = check_book(TEXT.replace("drawn: 25.00 mm", "drawn: {size small: 25.00 mm, size large: 26 mm}"), "b")
    assert [(one.id, one.variants) for one in report.found] == [("drawn otherwise", ("SH-L",))]


def test_a_fault_of_all_variants_is_told_once_and_of_none_by_name():
    report = check_book(TEXT.replace("mass: 0.06 kg", "mass: 0.06"), "b")
    assert [(one.id, one.variants) for one in report.found] == [("figure", ())]


def test_all_faults_at_once_in_file_order():
    text = TEXT.replace("mass: 0.06 kg", "mass: 0.06").replace("tool: ring pliers", "tool: pliers")
    text = text.replace("renew, bent: renew", "renew, bent: new").replace("\nkits:", "\nkitz:")
    report = check_book(text, "b")
    assert [one.id for one in report.found] == ["unknown word", "figure", "unknown key"]
    text = text.replace("bent: new", "bent: renew").replace("kitz:", "kits:").replace("mass: 0.06\n", "mass: 0.06 kg\n")
    assert [one.id for one in check_book(text, "b").found] == ["unknown name"]


@pytest.mark.parametrize(
    "value, small, large",
    [
        ("{size small: 2, size large: 3}", 2, 3),
        ("{size small or large: 4}", 4, 4),
        ("{size small: {size small: 5}, size large: 6}", 5, 6),
        ("&n {size small: 7, size large: 8}", 7, 8),
    ],
)
def test_keyed_values(value, small, large):
    text = HEAD + "options: {size: [small, large]}\nvariants: {s: {size: small}, l: {size: large}}\n"
    text += PARTS.replace("class: lid", f"class: lid, count: {value}")
    units = load_book(text, "b").units
    assert (units["s"].parts["B"].count, units["l"].parts["B"].count) == (small, large)


def test_conditions_on_several_options():
    text = HEAD + "options: {size: [s, l], drum: [short, long]}\n"
    text += "variants: {a: {size: s, drum: short}, b: {size: s, drum: long}, c: {size: l, drum: long}}\n"
    count = "{size s and drum short: 1, size s and drum long: 2, size l: 3}"
    text += PARTS.replace("class: lid", f"class: lid, count: {count}")
    assert [unit.parts["B"].count for unit in load_book(text, "b").units.values()] == [1, 2, 3]


def test_only_drops_entries_and_items_and_leaves_no_trace():
    text = HEAD + "options: {size: [s, l]}\nvariants: {a: {size: s}, b: {size: l}}\n"
    text += PARTS.replace("class: lid", "class: lid, only: [size l]")
    text += "proofs: {p: {only: size s, name: p, how: h, proves: x, does not prove: y, time: 1 min}}\n"
    small, large = load_book(text, "b").units.values()
    assert (list(small.parts), list(large.parts)) == (["A"], ["A", "B"])
    assert (list(small.proofs), list(large.proofs)) == (["p"], [])


def test_option_names_and_choices_may_have_blanks():
    text = HEAD + "options: {drum depth: [very short, long]}\n"
    text += "variants: {a: {drum depth: very short}, b: {drum depth: long}}\n"
    text += PARTS.replace("class: lid", "class: lid, count: {drum depth very short: 1, drum depth long: 2}")
    assert [unit.parts["B"].count for unit in load_book(text, "b").units.values()] == [1, 2]


def test_a_need_that_branches_without_end_is_told():
    names = [f"P{at}" for at in range(52)]
    parts = "".join(
        f"  {name}: {{name: p, class: p, mass: 1 kg, ways: [{{toward: front, time: 1 min}}]}}\n" for name in names
    )
    thirteens = ", ".join(f"{{all of: [{', '.join(names[at::4])}]}}" for at in range(4))
    way = f"{{toward: front, time: 1 min, behind: [{{any of: [{thirteens}]}}]}}"
    held = f"  Q: {{name: q, class: q, mass: 1 kg, ways: [{way}]}}\n"
    text = f"{HEAD}parts:\n  A: {{name: a, class: case, mass: 1 kg}}\n{parts}{held}"
    assert [(one.id, one.path) for one in check_book(text, "b").found] == [
        ("need branches", ("parts", "Q", "ways", 0, "behind", 0))
    ]
