"""Reading the text itself: encodings, sizes, aliases, and values that stay as they were written."""

import pytest

from layshaft.book.reader import MOST_BYTES, MOST_REPEATED, Row, Table, place_of, read

HEAD = "layshaft book: 1\n"


def told(source):
    return [(one.id, one.line, one.column) for one in read(source, "x.yaml", "layshaft book").faults]


def tree(text):
    script = read(HEAD + text, "x.yaml", "layshaft book")
    assert not script.faults
    return script.tree


@pytest.mark.parametrize(
    "written", ["2026-10-01", "12:30", "yes", "NO", "012", "1_0", "0x1F", "1e3", ".inf", "true", "8.8"]
)
def test_values_stay_as_they_were_written(written):
    assert tree(f"dated: {written}\n")["dated"] == written


def test_quotes_and_folds_are_taken_off():
    assert tree("a: '1.0'\nb: >-\n  one\n  two\nc: \"\"\n") == {
        "layshaft book": "1", "a": "1.0", "b": "one two", "c": "",
    }


@pytest.mark.parametrize("start, word", [
    (b"\xff\xfe" + "layshaft book: 1".encode("utf-16-le"), "UTF-16"),
    (b"\xfe\xff" + "layshaft book: 1".encode("utf-16-be"), "UTF-16"),
    ("layshaft book: 1".encode("utf-32"), "UTF-16 or UTF-32"),
])
def test_other_encodings_are_refused_by_name(start, word):
    (one,) = read(start, "x.yaml", "layshaft book").faults
    assert one.id == "not utf-8"
    assert word in one.found


def test_a_wrong_byte_is_told_where_it_stands():
    assert told(b"layshaft book: 1\nname: caf\xe9\n") == [("not utf-8", 2, 10)]


def test_a_byte_order_mark_is_no_sign():
    assert told("\ufeff" + HEAD) == []
    assert told(b"\xef\xbb\xbf" + HEAD.encode()) == []


def test_a_file_over_the_limit_is_not_read():
    assert told(HEAD + "#" * MOST_BYTES) == [("too large", 1, 1)]


@pytest.mark.parametrize("text", ["", "\n\n", "# only a comment\n", "---\n", "~\n"])
def test_nothing_written(text):
    assert [id for id, _, _ in told(text)] == ["empty file"]


def test_aliases_repeat_a_value():
    assert tree("a: &x {b: [1, 2]}\nc: *x\n")["c"] == {"b": ("1", "2")}


def test_aliases_that_grow_are_refused():
    levels = "".join(f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]\n" for n in range(1, 9))
    script = read(HEAD + "a0: &a0 [lol, lol]\n" + levels, "x.yaml", "layshaft book")
    assert [one.id for one in script.faults] == ["alias growth"]
    assert f"{MOST_REPEATED:,}" in script.faults[0].found


def test_an_alias_inside_its_own_anchor_is_no_circle():
    assert told(HEAD + "a: &x [1, *x]\n") == [("unknown alias", 2, 11)]


def test_places_of_keys_and_values():
    script = read(HEAD + "parts:\n  A: {name: x, ways: [{to: up},\n    {to: down}]}\n", "x.yaml", "layshaft book")
    assert isinstance(script.tree, Table)
    assert isinstance(script.tree["parts"]["A"]["ways"], Row)
    assert place_of(script.tree, ("parts", "A", "name")) == (2, 12)
    assert place_of(script.tree, ("parts", "A", "name"), at_key=True) == (2, 6)
    assert place_of(script.tree, ("parts", "A", "ways", 1, "to")) == (3, 9)
    assert place_of(script.tree, ("parts", 0)) == (2, 5), "the first entry of a table"
    assert place_of(script.tree, ("parts", "A", "nowhere", "at all")) == (2, 5), "as far as the path leads"
    assert place_of(script.tree, ("parts",)) == (1, 0), "what stands below its key is told at the key"


def test_reading_goes_on_after_tabs_and_unseen_signs():
    script = read(HEAD + "a:\tb\nc: d\u202e\ne: f\n", "x.yaml", "layshaft book")
    assert [(one.id, one.line) for one in script.faults] == [("tab", 2), ("unseen sign", 3)]
    assert script.tree == {"layshaft book": "1", "a": "b", "c": "d", "e": "f"}
