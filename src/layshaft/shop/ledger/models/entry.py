"""Entries: everything that anyone wrote on a job, in order, never changed and never deleted."""

from __future__ import annotations

from django.db import models


class Entry(models.Model):
    """One entry of a job.

    `kind` and `body` are those of a job file (`look`, `reading`, `done` and so on), or of the record itself (`placed`,
    `settled`, `put aside`). `key` is made by whoever sends it: the same one sent twice is one entry. `seen` is how many
    entries the sender knew. What `waits` says stands against it until someone has settled it.
    """

    job = models.ForeignKey("ledger.Job", on_delete=models.PROTECT, related_name="written")
    number = models.PositiveIntegerField()
    key = models.UUIDField(unique=True)
    at = models.DateTimeField()
    by = models.ForeignKey("ledger.Person", on_delete=models.PROTECT)
    kind = models.CharField(max_length=20)
    about = models.CharField(max_length=200, blank=True)
    body = models.JSONField()
    seen = models.PositiveIntegerField()
    waits = models.CharField(max_length=300, blank=True)

    class Meta:
        """In the order written; a number is given once."""

        ordering = ("job", "number")
        constraints = (models.UniqueConstraint(fields=("job", "number"), name="one_entry_a_number"),)

    def __str__(self) -> str:
        return f"{self.job_id}/{self.number} {self.kind}"
