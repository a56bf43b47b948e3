"""Reading a shop file or a job file: one definition for the whole file, every fault at once with its place."""

from __future__ import annotations

from dataclasses import replace
from hashlib import sha256
from typing import Generic, TypeVar

from pydantic import ValidationError

from layshaft.book.definition import Job, Shop
from layshaft.book.definition.base import Definition
from layshaft.book.fault import Fault, FaultReport
from layshaft.book.reader import FATAL, Manuscript, read
from layshaft.book.reading import refusals

SHOP_KEY = "layshaft shop"
JOB_KEY = "layshaft job"

Kind = TypeVar("Kind", bound=Definition)


class SheetFaults(ValueError):
    """A shop or job file that cannot be used, with the whole report of what has to be corrected."""

    def __init__(self, report: FaultReport) -> None:
        super().__init__(report.text())
        self.report = report


class Sheet(Generic[Kind]):
    """A file read into its definition, with the text kept so that later checks can say where something stands."""

    def __init__(self, name: str, text: str | bytes, script: Manuscript, content: Kind) -> None:
        self.name = name
        self.script = script
        self.content = content
        self.sha256 = sha256(text.encode() if isinstance(text, str) else text).hexdigest()

    def report(self, found: list[Fault]) -> FaultReport:
        """Faults of a later check, each put at its place in the file."""
        return FaultReport.of(self.name, (self.script.located(one, self.script.tree) for one in found))


def load_shop(text: str | bytes, name: str) -> Sheet[Shop]:
    """Read a shop file; raise `SheetFaults` with every fault at once if there is any."""
    return _load(text, name, SHOP_KEY, Shop)


def load_job(text: str | bytes, name: str) -> Sheet[Job]:
    """Read a job file; raise `SheetFaults` with every fault at once if there is any."""
    return _load(text, name, JOB_KEY, Job)


def _load(text: str | bytes, name: str, first_key: str, kind: type[Kind]) -> Sheet[Kind]:
    script = read(text, name, first_key)
    found = list(script.faults)
    content = None
    if not any(one.id in FATAL for one in found):
        try:
            content = kind.model_validate({key: value for key, value in script.tree.items() if key != first_key})
        except ValidationError as error:
            found += [script.located(one, script.tree) for one in refusals(error, kind)]
    report = FaultReport.of(name, found)
    if content is None or not report.is_clean:
        report = replace(report, is_partial=not any(one.id in FATAL for one in found))
        raise SheetFaults(report)
    return Sheet(name, text, script, content)
