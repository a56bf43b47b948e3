"""Photos of a job: the row here, the picture beside the database under the name of its own digest."""

from __future__ import annotations

from django.db import models


class Photo(models.Model):
    """One picture, with what it shows; `digest` names its files."""

    job = models.ForeignKey("ledger.Job", on_delete=models.PROTECT, related_name="photos")
    digest = models.CharField(max_length=64)
    part = models.CharField(max_length=80, blank=True)
    words = models.CharField(max_length=300, blank=True)
    width = models.PositiveIntegerField()
    height = models.PositiveIntegerField()
    at = models.DateTimeField()
    by = models.ForeignKey("ledger.Person", on_delete=models.PROTECT)

    class Meta:
        """In the order taken."""

        ordering = ("at", "id")

    def __str__(self) -> str:
        return self.digest[:12]
