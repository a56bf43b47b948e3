"""The demo shop's rows, made once a session and given to each test in a transaction of its own."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from layshaft.shop.ledger.models import Job
from tests.shop.ledger.shop import NUMBER, open_shop


@pytest.fixture(scope="session")
def django_db_setup(django_db_setup: None, django_db_blocker: Any) -> Iterator[None]:
    with django_db_blocker.unblock():
        open_shop()
        yield


@pytest.fixture
def job(db: None) -> Job:
    return Job.objects.get(number=NUMBER)
