"""People: keys, PINs, the last owner."""

from __future__ import annotations

import pytest

from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.models import Event, Job
from layshaft.shop.ledger.people import add_person, change_person, is_pin, set_pin
from tests.shop.ledger.shop import person


def test_a_pin_is_kept_hashed_and_known_again(job: Job) -> None:
    made = add_person("Nell Harrow", "apprentice", "7319", person("ferrow"))
    assert made.key == "harrow"
    assert "7319" not in made.pin
    assert is_pin(made, "7319")
    assert not is_pin(made, "7318")
    set_pin(made, "86420", person("ferrow"))
    assert is_pin(made, "86420") and not is_pin(made, "7319")
    assert "86420" not in str(Event.objects.filter(about="person harrow").values())


def test_two_of_one_name_get_keys_of_their_own(job: Job) -> None:
    keys = [add_person("Nell Harrow", "rebuilder", "7319", None).key for _ in range(2)]
    assert keys == ["harrow", "harrow-2"]


@pytest.mark.parametrize("pin", ["", "12", "abcd", "1234", "123456789", "٣٣٣٣"])
def test_a_pin_that_anyone_would_try_is_refused(job: Job, pin: str) -> None:
    with pytest.raises(Refused):
        add_person("Nell Harrow", "rebuilder", pin, None)


def test_the_last_owner_stays_one(job: Job) -> None:
    owner = person("ferrow")
    for more in ({"role": "rebuilder"}, {"is_here": False}):
        with pytest.raises(Refused, match="owner"):
            change_person(owner, owner, **more)
    change_person(person("maddick"), owner, role="owner")
    change_person(owner, person("maddick"), is_here=False)
    assert not is_pin(person("ferrow"), "2580")


def test_a_change_of_role_is_on_record(job: Job) -> None:
    change_person(person("quill"), person("ferrow"), role="rebuilder")
    event = Event.objects.first()
    assert (event.about, event.was, event.now) == ("person quill", "apprentice, here", "rebuilder, here")


def test_an_unknown_role_is_refused(job: Job) -> None:
    with pytest.raises(Refused, match="no role"):
        change_person(person("quill"), person("ferrow"), role="king")
