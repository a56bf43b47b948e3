"""What changed in the shop itself, beside any job: people, settings, books."""

from __future__ import annotations

from django.db import models


class Event(models.Model):
    """One change: who, when, of what, from what to what, and why."""

    at = models.DateTimeField()
    by = models.ForeignKey("ledger.Person", on_delete=models.PROTECT, null=True)
    about = models.CharField(max_length=200)
    was = models.CharField(max_length=200, blank=True)
    now = models.CharField(max_length=200, blank=True)
    why = models.CharField(max_length=300, blank=True)

    class Meta:
        """The newest first."""

        ordering = ("-at", "-id")

    def __str__(self) -> str:
        return f"{self.about}: {self.was} -> {self.now}"
