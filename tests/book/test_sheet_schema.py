"""The JSON Schemas of shop and job files: sound files keep to them, and what an editor can see is refused."""

import json

import pytest

from layshaft.book.definition import Job, Shop
from layshaft.book.grammar import definitions
from layshaft.book.schema import DIALECT
from layshaft.book.sheet_schema import job_schema, shop_schema
from tests.book import test_schema as reader
from tests.house.tree import ROOT
from tests.stories.sheet_story import examples

SCHEMAS = {"shop": shop_schema(), "job": job_schema()}


@pytest.fixture(params=SCHEMAS)
def kind(request, monkeypatch):
    """Each kind of file, with the reader of schemas set to its definitions."""
    monkeypatch.setattr(reader, "SCHEMA", SCHEMAS[request.param])
    return request.param


def is_kept(kind, text):
    return reader.is_kept(reader.as_an_editor_reads(text), SCHEMAS[kind])


def test_demonstration_and_manual_keep_to_the_schema(kind):
    assert is_kept(kind, (ROOT / "books" / "demo" / f"{kind}.yaml").read_text(encoding="utf-8"))
    assert is_kept(kind, examples()[kind])


REFUSED = {
    "shop": [
        ("currency: CUR\n", ""),
        ("currency: CUR\n", "currency: CUR\nmoney: CUR\n"),
        ("layshaft shop: 1", "layshaft shop: 2"),
        ("role: owner", "role: boss"),
        ("{count: 6}", "{count: few}"),
        ("measured: [1.98 mm, 1.97 mm]", "measured: 1.98 mm"),
    ],
    "job": [
        ("variant: SH-L\n", ""),
        ("is: not known", "is: unknown"),
        ("figures: [39.60 mm]", "figures: []"),
        ("pieces: [2]", "pieces: []"),
        ("per: piece", "per: part"),
        ("release: 1", "release: 0"),
        ("by: customer, ", ""),
    ],
}


def test_what_an_editor_can_see_is_refused(kind):
    for old, new in REFUSED[kind]:
        text = examples()[kind]
        assert text.count(old) == 1, old
        assert not is_kept(kind, text.replace(old, new)), f"{old!r} to {new!r}"


def test_schema_has_every_definition_and_says_its_dialect(kind):
    schema = SCHEMAS[kind]
    root = {"shop": Shop, "job": Job}[kind]
    assert schema["$schema"] == DIALECT
    assert set(definitions(root)) - {root.__name__} == set(schema["$defs"])
    assert '"null"' not in json.dumps(schema), "nothing in a file is left empty"
