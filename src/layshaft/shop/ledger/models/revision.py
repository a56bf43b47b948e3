"""What a job is worked out by: revisions of unit books and of the shop's settings; none is ever changed."""

from __future__ import annotations

from django.db import models


class BookRevision(models.Model):
    """One revision of a unit book, as it was handed in."""

    book = models.CharField(max_length=80)
    revision = models.PositiveIntegerField()
    name = models.CharField(max_length=200)
    maker = models.CharField(max_length=200)
    sha256 = models.CharField(max_length=64)
    text = models.BinaryField()
    at = models.DateTimeField()
    by = models.ForeignKey("ledger.Person", on_delete=models.PROTECT, null=True)

    class Meta:
        """One text for each revision."""

        ordering = ("book", "-revision")
        constraints = (models.UniqueConstraint(fields=("book", "revision"), name="one_text_a_revision"),)

    def __str__(self) -> str:
        return f"{self.book} {self.revision}"


class SettingsRevision(models.Model):
    """One revision of the shop's settings: presses, gauges, drawer, prices, units; people have rows of their own."""

    revision = models.PositiveIntegerField(unique=True)
    text = models.TextField()
    at = models.DateTimeField()
    by = models.ForeignKey("ledger.Person", on_delete=models.PROTECT, null=True)
    why = models.CharField(max_length=200)

    class Meta:
        """The newest first."""

        ordering = ("-revision",)

    def __str__(self) -> str:
        return f"settings {self.revision}"
