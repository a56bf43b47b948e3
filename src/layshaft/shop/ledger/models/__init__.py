"""The rows of the record."""

from layshaft.shop.ledger.models.customer_link import CustomerLink
from layshaft.shop.ledger.models.entry import Entry
from layshaft.shop.ledger.models.event import Event
from layshaft.shop.ledger.models.guess import Guess
from layshaft.shop.ledger.models.job import Job, Place
from layshaft.shop.ledger.models.person import Person, Role
from layshaft.shop.ledger.models.photo import Photo
from layshaft.shop.ledger.models.revision import BookRevision, SettingsRevision

__all__ = [
    "BookRevision",
    "CustomerLink",
    "Entry",
    "Event",
    "Guess",
    "Job",
    "Person",
    "Photo",
    "Place",
    "Role",
    "SettingsRevision",
]
