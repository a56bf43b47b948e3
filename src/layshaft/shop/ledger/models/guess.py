"""PINs that were tried: so many wrong ones lock a name on a screen for a while."""

from __future__ import annotations

from django.db import models


class Guess(models.Model):
    """One try of somebody's PIN on one screen."""

    person = models.ForeignKey("ledger.Person", on_delete=models.PROTECT)
    device = models.CharField(max_length=64)
    at = models.DateTimeField()
    is_right = models.BooleanField()

    class Meta:
        """Found by name and screen."""

        indexes = (models.Index(fields=("person", "device", "-at")),)

    def __str__(self) -> str:
        return f"{self.person_id} {'right' if self.is_right else 'wrong'}"
