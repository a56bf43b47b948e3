"""People of the shop; one who left stays on record and may no longer sign."""

from __future__ import annotations

from django.db import models


class Role(models.TextChoices):
    """What someone is to the shop; what each may do stands in `right`."""

    OWNER = "owner"
    REBUILDER = "rebuilder"
    APPRENTICE = "apprentice"
    COUNTER = "counter"


class Person(models.Model):
    """Someone of the shop. `key` is what a job's record calls them; the PIN is kept hashed."""

    key = models.SlugField(max_length=40, unique=True)
    name = models.CharField(max_length=80)
    role = models.CharField(max_length=10, choices=Role.choices)
    pin = models.CharField(max_length=200, blank=True)
    is_here = models.BooleanField(default=True)

    class Meta:
        """Names in order."""

        ordering = ("name",)

    def __str__(self) -> str:
        return self.name
