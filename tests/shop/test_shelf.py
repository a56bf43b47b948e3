"""What kind of file something is, by its first key."""

import pytest

from layshaft.shop.shelf import kind_of

BEFORE = ["", "\ufeff", "# a word first\n\n", "---\n", "%YAML 1.2\n---\n", "%YAML 1.1\n---\n# so\n"]


@pytest.mark.parametrize("before", BEFORE)
@pytest.mark.parametrize("kind", ["book", "shop", "job"])
def test_kind_by_first_key(before, kind):
    assert kind_of(f"{before}layshaft {kind}: 1\n".encode()) == kind


@pytest.mark.parametrize("text", ["", "id: x\nlayshaft job: 1\n", "%YAML 1.2\n---\nid: x\n"])
def test_no_kind_where_the_first_key_is_another(text):
    assert kind_of(text.encode()) == ""
