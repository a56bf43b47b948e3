"""A job: what it was opened with, and a summary of its entries that pages can find it by."""

from __future__ import annotations

from django.db import models


class Place(models.TextChoices):
    """Where a unit is."""

    BENCH = "bench"
    PRESS = "press"
    WASH = "wash"
    PARTS = "waiting for parts"
    YES = "waiting for a yes"
    READY = "ready"
    GONE = "handed over"


class Job(models.Model):
    """One unit on the bench.

    `entries` counts what was written on it; every write names the count it expects, and finds another if somebody was
    faster. `summary` holds words that search looks through, in lower case.
    """

    number = models.CharField(max_length=40, unique=True)
    book = models.ForeignKey("ledger.BookRevision", on_delete=models.PROTECT)
    variant = models.CharField(max_length=80)
    customer = models.CharField(max_length=200, blank=True)
    reach = models.CharField(max_length=200, blank=True)
    serial = models.CharField(max_length=80, blank=True)
    opened = models.DateField()
    is_invented = models.BooleanField(default=False)
    place = models.CharField(max_length=20, choices=Place.choices, default=Place.BENCH)
    held_load = models.CharField(max_length=200, blank=True)
    waits = models.PositiveIntegerField(default=0)
    entries = models.PositiveIntegerField(default=0)
    touched = models.DateTimeField()
    summary = models.TextField(blank=True)

    class Meta:
        """The one touched last first."""

        ordering = ("-touched",)
        indexes = (models.Index(fields=("place", "-touched")),)

    def __str__(self) -> str:
        return self.number
