"""What kind of file something is, by its first key; which books are on the shelf."""

import pytest

from layshaft.shop.check import check_file
from layshaft.shop.shelf import Shelf, kind_of
from tests.stories.sheet_story import examples
from tests.stories.story import example

BEFORE = ["", "\ufeff", "# a word first\n\n", "---\n", "%YAML 1.2\n---\n", "%YAML 1.1\n---\n# so\n"]


@pytest.mark.parametrize("before", BEFORE)
@pytest.mark.parametrize("kind", ["book", "shop", "job"])
def test_kind_by_first_key(before, kind):
    assert kind_of(f"{before}layshaft {kind}: 1\n".encode()) == kind


@pytest.mark.parametrize("text", ["", "id: x\nlayshaft job: 1\n", "%YAML 1.2\n---\nid: x\n"])
def test_no_kind_where_the_first_key_is_another(text):
    assert kind_of(text.encode()) == ""


def test_a_book_that_is_a_file_beside_counts_as_one_in_a_folder(tmp_path):
    (tmp_path / "slip-hub.yaml").write_text(example(), "utf-8")
    (tmp_path / "other").mkdir()
    (tmp_path / "other" / "book.yaml").write_text(example().replace("id: slip-hub", "id: other"), "utf-8")
    (tmp_path / "shop.yaml").write_text(examples()["shop"], "utf-8")
    shelf = Shelf((tmp_path,))
    assert shelf.ids() == ("other", "slip-hub")
    assert [book.id for book in shelf.books()] == ["other", "slip-hub"]


def test_a_faulty_book_on_the_shelf_keeps_no_shop_file_from_being_checked(tmp_path):
    (tmp_path / "slip-hub.yaml").write_text(example(), "utf-8")
    (tmp_path / "draft.yaml").write_text("layshaft book: 1\nid: draft\n", "utf-8")
    (tmp_path / "shop.yaml").write_text(examples()["shop"], "utf-8")
    assert [book.id for book in Shelf((tmp_path,)).books()] == ["slip-hub"]
    assert not [one for one in check_file(tmp_path / "shop.yaml").found if one.id == "in no book"]
