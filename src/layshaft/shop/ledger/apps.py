"""The ledger as the framework knows it."""

from __future__ import annotations

from django.apps import AppConfig


class LedgerConfig(AppConfig):
    """The record of a shop."""

    name = "layshaft.shop.ledger"
    label = "ledger"
    default_auto_field = "django.db.models.BigAutoField"
