"""The shop's own pages: people, settings and books are changed by who may, checked first, and every change is told."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.http import HttpResponse
from django.test import Client

from layshaft.shop.ledger.desk import people_now, settings_now, shop_of
from layshaft.shop.ledger.models import BookRevision, Event, Person, SettingsRevision
from layshaft.shop.ledger.people import is_pin
from tests.shop.ledger.shop import BOOKS, person

AtScreen = Callable[[str], Client]


def words(answer: HttpResponse) -> str:
    return answer.content.decode()


def test_the_shop_tells_who_is_here_and_what_changed(at_screen: AtScreen) -> None:
    page = words(at_screen("quill").get("/shop"))
    assert "P. Quill, apprentice" in page
    assert "the demo shop" in page
    assert "People</a>" not in page
    assert "People</a>" in words(at_screen("ferrow").get("/shop"))


def test_someone_is_taken_on_and_signs_in(at_screen: AtScreen) -> None:
    client = at_screen("ferrow")
    assert client.post("/shop/people", {"name": "R. Tarn", "role": "rebuilder", "pin": "7392"}).status_code == 302
    made = Person.objects.get(key="tarn")
    assert is_pin(made, "7392")
    assert Event.objects.filter(about="person tarn", by=person("ferrow")).exists()
    assert "R. Tarn" in words(client.get("/shop"))


@pytest.mark.parametrize(
    ("sent", "told"),
    [
        ({"name": "", "role": "owner", "pin": "7392"}, "name is missing"),
        ({"name": "R. Tarn", "role": "king", "pin": "7392"}, "no role `king`"),
        ({"name": "R. Tarn", "role": "owner", "pin": "1234"}, "take another PIN"),
        ({"name": "R. Tarn", "role": "owner", "pin": "<b>"}, "four to eight digits"),
    ],
)
def test_nobody_is_taken_on_by_half(at_screen: AtScreen, sent: dict[str, str], told: str) -> None:
    before = Person.objects.count()
    answer = at_screen("ferrow").post("/shop/people", sent)
    assert answer.status_code == 409
    assert told in words(answer)
    assert Person.objects.count() == before


def test_a_role_a_pin_and_a_leaving_are_changed(at_screen: AtScreen) -> None:
    client, theirs = at_screen("ferrow"), at_screen("quill")
    assert client.post("/shop/people/quill", {"what": "role", "role": "rebuilder"}).status_code == 302
    assert client.post("/shop/people/quill", {"what": "pin", "pin": "8046"}).status_code == 302
    assert is_pin(person("quill"), "8046")
    assert person("quill").role == "rebuilder"
    assert client.post("/shop/people/quill", {"what": "gone"}).status_code == 302
    assert theirs.get("/shop").status_code == 302
    assert "Gone. What quill signed stays signed." in words(client.get("/shop/people"))
    assert client.post("/shop/people/quill", {"what": "here"}).status_code == 302


def test_the_last_owner_stays_one(at_screen: AtScreen) -> None:
    client = at_screen("ferrow")
    for sent in ({"what": "gone"}, {"what": "role", "role": "counter"}):
        answer = client.post("/shop/people/ferrow", sent)
        assert answer.status_code == 409
        assert "A shop needs an owner" in words(answer)
    assert client.post("/shop/people/ferrow", {"what": "promote"}).status_code == 409
    assert client.post("/shop/people/nobody", {"what": "gone"}).status_code == 404


FEW = {"units": "inch", "currency": "CUR", "rate": "104.50", "percent": "", "on": "parts", "why": "new year"}


def few(client: Client, **more: str) -> HttpResponse:
    return client.post("/shop/settings/few", {**FEW, "expected": str(settings_now().revision), **more})


def test_units_and_money_are_changed_where_they_stand(at_screen: AtScreen) -> None:
    before = settings_now().text
    assert few(at_screen("ferrow")).status_code == 302
    shop = shop_of(settings_now(), people_now()).content
    was = shop_of(SettingsRevision.objects.get(revision=1), people_now()).content
    assert (shop.units, str(shop.labour_rate), shop.tax) == ("inch", "104.50 CUR", None)
    assert shop.revision == was.revision + 1
    assert shop.presses == was.presses
    assert len(before.splitlines()) - len(settings_now().text.splitlines()) == 1
    assert Event.objects.first().why == "new year"


@pytest.mark.parametrize(
    ("more", "told"),
    [
        ({"rate": "much"}, "Nothing was changed"),
        ({"units": "furlong"}, "Nothing was changed"),
        ({"rate": "1\nowner: x"}, "signs in it"),
        ({"percent": "8}\npeople: {x"}, "signs in it"),
        ({"why": " "}, "Why are they changed"),
        ({"expected": "0"}, "meanwhile"),
        ({"expected": "x" * 5000}, "lost its stamp"),
    ],
)
def test_a_wrong_figure_changes_no_setting(at_screen: AtScreen, more: dict[str, str], told: str) -> None:
    before = SettingsRevision.objects.count()
    answer = few(at_screen("ferrow"), **more)
    assert answer.status_code == 409
    assert told in words(answer)
    assert SettingsRevision.objects.count() == before


def test_settings_with_faults_are_told_by_line_and_what_was_typed_stays(at_screen: AtScreen) -> None:
    client, now = at_screen("ferrow"), settings_now()
    text = now.text.replace("rating: 150 kN", "rating: <script>")
    sent = {"text": text, "why": "a press", "expected": str(now.revision)}
    answer = client.post("/shop/settings", sent)
    line = next(at for at, one in enumerate(text.splitlines(), 1) if "<script>" in one)
    assert answer.status_code == 409
    assert f"Line {line}:" in words(answer)
    assert "<script>" not in words(answer).replace("<script src", "")
    assert settings_now().pk == now.pk
    assert "longer than" in words(client.post("/shop/settings", {**sent, "text": "x" * 1_000_001}))
    assert client.post("/shop/settings", {**sent, "text": now.text.replace("150 kN", "140 kN")}).status_code == 302
    assert settings_now().why == "a press"


def hand_in(client: Client, content: bytes) -> HttpResponse:
    return client.post("/shop/books/add", {"book": SimpleUploadedFile("book.yaml", content)})


def test_a_book_is_handed_in_and_taken_away_as_it_was(at_screen: AtScreen) -> None:
    client = at_screen("maddick")
    text = (BOOKS / "layline" / "book.yaml").read_bytes().replace(b"\nrevision: 1\n", b"\nrevision: 2\n")
    assert hand_in(client, text).status_code == 302
    row = BookRevision.objects.get(book="layline", revision=2)
    assert "revision 2" in words(client.get("/shop/books"))
    answer = client.get(f"/shop/books/{row.pk}.yaml")
    assert answer.content == text
    assert answer["Content-Disposition"] == 'attachment; filename="layline-2.yaml"'
    assert client.get("/shop/books/999999.yaml").status_code == 404


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"", "1 to mend"),
        (b"\xff\xfe\x00\x01", "to mend"),
        (b"x" * 2_000_001, "at most 2000000"),
        (b"layshaft book: 1\nid: ../../x\n", "to mend"),
        (b"a: &a [x]\nb: [*a, *a]\n", "to mend"),
    ],
)
def test_what_is_no_book_is_told_by_line_and_not_taken(at_screen: AtScreen, content: bytes, told: str) -> None:
    before = BookRevision.objects.count()
    answer = hand_in(at_screen("maddick"), content)
    assert answer.status_code == 409
    assert told in words(answer)
    assert BookRevision.objects.count() == before


def test_a_revision_is_never_replaced(at_screen: AtScreen) -> None:
    text = (BOOKS / "layline" / "book.yaml").read_bytes() + b"\n# another\n"
    assert "needs a new `revision`" in words(hand_in(at_screen("maddick"), text))
    assert "No file came with it" in words(at_screen("maddick").post("/shop/books/add"))
