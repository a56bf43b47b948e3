"""The demo shop's rows for pages, and someone at the screen."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import pytest
from django.test import Client

from layshaft.shop.ledger.models import Job
from layshaft.web.page import PERSON
from tests.shop.ledger.shop import NUMBER, open_shop, person


@pytest.fixture(scope="session")
def django_db_setup(django_db_setup: None, django_db_blocker: Any) -> Iterator[None]:
    with django_db_blocker.unblock():
        open_shop()
        yield


@pytest.fixture
def job(db: None) -> Job:
    return Job.objects.get(number=NUMBER)


@pytest.fixture
def at_screen(job: Job) -> Callable[[str], Client]:
    """A browser with someone of the demo shop signed in; forged requests are refused as they are in use."""

    def sign_in(key: str) -> Client:
        client = Client()
        client.get("/who")
        session = client.session
        session[PERSON] = person(key).pk
        session.save()
        return client

    return sign_in
