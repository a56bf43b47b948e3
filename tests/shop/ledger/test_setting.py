"""Keys of the settings' text set where they stand: nothing else of the text is touched."""

from __future__ import annotations

from layshaft.shop.ledger.setting import counted_up, is_same_revision, with_keys

TEXT = "# ours\nid: a\nrevision: 9\nunits: metric\ntax:\n  percent: 8\n  on: parts\npresses: {}\n"


def test_a_key_is_set_where_it_stands_with_all_that_hangs_on_it() -> None:
    changed = with_keys(TEXT, {"units": "inch", "tax": "{percent: 9}"})
    assert changed == "# ours\nid: a\nrevision: 9\nunits: inch\ntax: {percent: 9}\npresses: {}\n"


def test_a_key_that_is_not_there_comes_in_and_one_set_to_nothing_goes() -> None:
    changed = with_keys(TEXT, {"currency": "CUR", "tax": ""})
    assert changed == "# ours\nid: a\nrevision: 9\ncurrency: CUR\nunits: metric\npresses: {}\n"


def test_the_next_revision_is_counted_up() -> None:
    assert "\nrevision: 10\n" in counted_up(TEXT)
    assert is_same_revision(TEXT, TEXT)
    assert not is_same_revision(counted_up(TEXT), TEXT)
    assert counted_up("id: a\n") == "id: a\n"
