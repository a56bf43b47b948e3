"""Links by which a customer sees one job: kept as a digest, so that who reads the record cannot use them."""

from __future__ import annotations

from django.db import models


class CustomerLink(models.Model):
    """One link: who made it, and who ended it."""

    job = models.ForeignKey("ledger.Job", on_delete=models.PROTECT, related_name="links")
    digest = models.CharField(max_length=64, unique=True)
    at = models.DateTimeField()
    by = models.ForeignKey("ledger.Person", on_delete=models.PROTECT, related_name="links_made")
    ended_at = models.DateTimeField(null=True)
    ended_by = models.ForeignKey("ledger.Person", on_delete=models.PROTECT, null=True, related_name="links_ended")

    class Meta:
        """The newest first."""

        ordering = ("-at", "-id")

    def __str__(self) -> str:
        return self.digest[:12]
