"""The build sheet's words and figures, put together from a job that was worked through; where they stand is Typst's."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from layshaft.paper.fit_row import fit_lines, fit_rows, is_empty, miss_lines, other_lines, size_rows, unsettled
from layshaft.paper.kept_row import kept_lines, risk_rows
from layshaft.paper.open_row import grouped
from layshaft.paper.price_row import order_rows, price_row
from layshaft.paper.proof_row import proof_rows, to_release
from layshaft.paper.rework_row import rework_lines
from layshaft.paper.wording import capital, counted, worded
from layshaft.plan.fitted_verdict import fitted_verdicts
from layshaft.plan.judgement import Judgement
from layshaft.plan.phrase import at_most_joules
from layshaft.plan.press import Refusal
from layshaft.plan.proof_outcome import failed_proofs
from layshaft.plan.rebuild import Rebuild
from layshaft.plan.step import PlannedStep
from layshaft.plan.telling import lowered, telling_of
from layshaft.plan.verdict import which_pieces

Row = dict[str, Any]
_TITLES = {
    "renew": "To be renewed",
    "rework": "To be reworked and measured again",
    "measure again": "To be measured again",
    "ask": "To be asked",
    "open": "Not looked at or not measured yet",
    "replaced": "To be replaced by a size that was chosen",
    "reuse": "To be used again",
}
_COUNTS = {
    "reuse": "to be used again",
    "replaced": "to be replaced by a size that was chosen",
    "renew": "to be renewed",
    "rework": "to be reworked",
    "measure again": "to be measured again",
    "ask": "to be asked",
    "open": "not yet looked at or measured",
}
_MARKS = {"prove": "PROOF", "turn": "TURN"}
SIGNATURES = ("built by", "checked by a second person", "received by", "date", "released: yes / no", "signature")
DEFER = "For trained people. Maker's data, equipment ratings and local codes come first."


def build_sheet(rebuilt: Rebuild) -> Row:
    """All that the template asks for, as plain data; what the shop pays is in it, and is not set."""
    teller = _Sheet(rebuilt)
    job, shop, unit = rebuilt.job, rebuilt.shop, rebuilt.unit
    sheet = {
        "title": f"Build sheet {job.id}, {unit.name} {unit.variant}",
        "paper": "us-letter" if shop.paper == "letter" else "a4",
        "foot": teller.foot(),
        "notes": teller.notes(),
        "shop": {"name": shop.name, "note": "invented shop" if shop.invented else ""},
        "unit": {"name": unit.name, "variant": unit.variant},
        "job": {"id": job.id, "serial": job.serial or "not given", "complaint": job.intake.complaint or ""},
        "intake": {"evidence": list(job.intake.evidence), "missing": list(job.intake.missing)},
        "facts": teller.facts(),
        "now": list(rebuilt.now),
        "loaded": teller.loaded(),
        "headline": teller.headline(),
        "cautions": list(unit.cautions),
        "open": teller.open(),
        "fits": fit_rows(rebuilt),
        "chosen": size_rows(rebuilt, teller.telling),
        "misses": miss_lines(rebuilt, teller.telling),
        "others": other_lines(rebuilt, teller.telling),
        "found": teller.found(),
        "loads": teller.loads(),
        "passages": teller.passages(),
        "teardown": _way_down(rebuilt) if rebuilt.is_begun else [],
        "assembly": [_step(step) for step in rebuilt.assembly.steps],
        "proofs": teller.proofs(),
        "price": price_row(rebuilt),
        "orders": order_rows(rebuilt, teller.telling),
        "risks": risk_rows(rebuilt, teller.verdicts.values()),
        "handover": teller.handover(),
        "signatures": list(SIGNATURES),
    }
    told: Row = worded(sheet, teller.telling)
    return told


def _way_down(rebuilt: Rebuild) -> list[Row]:
    """The steps that are left of taking it down; none where only preparations for measuring are."""
    steps = rebuilt.teardown.steps
    return [_step(step) for step in steps] if any(step.kind != "prepare" for step in steps) else []


def build_teardown(rebuilt: Rebuild) -> Row:
    """What a job's unit comes apart by from the state it is in, whether anything was done yet or not."""
    teller, unit = _Sheet(rebuilt), rebuilt.unit
    sheet = {
        "title": f"Teardown {rebuilt.job.id}, {unit.name} {unit.variant}, from the state it is in",
        "foot": teller.foot(),
        "now": list(rebuilt.now),
        "loaded": list(rebuilt.loads_told),
        "teardown": _way_down(rebuilt),
    }
    told: Row = worded(sheet, teller.telling)
    return told


class _Sheet:
    def __init__(self, rebuilt: Rebuild) -> None:
        self.it = rebuilt
        self.telling = telling_of(rebuilt.shop)
        self.verdicts = fitted_verdicts(rebuilt.judgements, rebuilt.fit, self.telling)
        self.failed = failed_proofs(rebuilt.unit, rebuilt.job, self.telling)

    def foot(self) -> str:
        """What stands under every page."""
        is_invented = self.it.unit.invented or self.it.job.invented or self.it.shop.invented
        return DEFER + (" Invented data." if is_invented else "")

    def notes(self) -> list[str]:
        """What the figures are worth: invented ones, and data of this job's loads that two have not confirmed."""
        unit, job, shop = self.it.unit, self.it.job, self.it.shop
        kinds = {"book": unit.invented, "shop": shop.invented, "job": job.invented}
        invented = [kind for kind, is_so in kinds.items() if is_so]
        lines = [f"Invented data: {', '.join(invented)}."] if invented else []
        lines += [
            f"{capital(name)}: load data drafted, not yet confirmed by two people on a real unit."
            for name, load in unit.loads.items()
            if not load.is_confirmed and self._is_opened(name)
        ]
        return lines

    def _is_opened(self, load: str) -> bool:
        """Whether a load is let go in this job, or one of its springs comes to hand."""
        is_used = any(use.plan.load == load for use in self.it.presses)
        return is_used or not self.it.opened.isdisjoint(self.it.unit.loads[load].springs)

    def facts(self) -> list[list[str]]:
        job, book = self.it.job, self.it.unit
        return [
            ["job", job.id],
            ["variant", book.variant],
            ["customer", job.customer.name if job.customer else "not given"],
            ["serial", job.serial or "not given"],
            *([["comeback of", job.comeback_of]] if job.comeback_of else []),
            *([["paid by", f"the {job.paid_by}"]] if self.is_comeback() else []),
            ["came in", job.opened],
            ["sheet of", job.today],
            *([["accepted by", job.accepted_by]] if job.accepted_by else []),
            ["unit book", f"{book.id}, revision {book.revision}"],
            ["shop file", f"{self.it.shop.id}, revision {self.it.shop.revision}"],
            ["maker", book.maker],
            ["bench", str(job.temperature.text) if job.temperature else "temperature not written"],
        ]

    def is_comeback(self) -> bool:
        """Whether who pays has to be said: the unit came back, or the shop pays."""
        return self.it.job.comeback_of is not None or self.it.job.paid_by == "shop"

    def comeback(self) -> list[str]:
        if not self.is_comeback():
            return []
        of, pays = self.it.job.comeback_of, f"the {self.it.job.paid_by} pays"
        return [f"Comeback of job {of}; {pays}." if of else f"{capital(pays)} for this job."]

    def loaded(self) -> list[str]:
        """What is loaded in a unit that is no longer whole, as it stands now."""
        return list(self.it.loads_told) if self.it.is_begun else []

    def headline(self) -> list[str]:
        verdicts = [_group(one) for one in self.verdicts.values()]
        told = [f"{verdicts.count(verdict)} {words}" for verdict, words in _COUNTS.items() if verdict in verdicts]
        lines = self.comeback()
        if is_empty(self.it):
            lines.append("Nothing is looked at or measured yet.")
        if verdicts:
            lines.append(f"Of {counted(len(verdicts), 'kind', 'kinds')} of part: {', '.join(told)}.")
        lines += fit_lines(self.it)
        lines += kept_lines(self.it, self.verdicts.values())
        lines += rework_lines(self.it)
        for is_past, words in ((False, "Proved, and not as it has to be"), (True, "Proved too early to count")):
            names = [one.name for one in self.failed if one.is_overtaken is is_past]
            lines += [f"{words}: {', '.join(names)}."] if names else []
        if self.open() or self.it.now:
            lines.append("The unit is not released while anything here is open.")
        else:
            lines.append(to_release(self.it))
        return lines

    def open(self) -> list[Row]:
        sentences = list(self._refused())
        sentences += [one.sentence for one in self.failed]
        sentences += grouped([point.sentence for point in self.it.open], self.it.findings)
        sentences += [point.sentence for point in self.it.order.open]
        rows = [{"sentence": sentence, "how": ""} for sentence in dict.fromkeys(sentences)]
        return [*rows, *unsettled(self.it)]

    def _refused(self) -> Iterator[str]:
        """Loads without a plan, and a unit without an order to go together by; why stands first of all on the sheet."""
        for use in self.it.presses:
            if isinstance(use.plan, Refusal):
                when = " and ".join(use.when)
                yield f"{capital(use.plan.load)}, {when}: there is no plan to hold it by; see First of all."
        if not self.it.assembly.steps:
            yield "There is no order to put the unit together by; see First of all."

    def found(self) -> list[Row]:
        groups = []
        for verdict, title in _TITLES.items():
            rows = [self._found(one) for one in self.verdicts.values() if _group(one) == verdict]
            if rows:
                groups.append({"title": f"{title} ({len(rows)})", "rows": rows})
        return groups

    def _found(self, one: Judgement) -> Row:
        part = self.it.unit.parts[one.part]
        which = which_pieces(part.count, one.pieces) if one.verdict == "renew" else ""
        count = (which or str(part.count)) if part.count > 1 else ""
        reason = _without(_without(one.reason, part.name), which)
        if one.replaced_by is not None:
            reason = f"{one.replaced_by} goes in instead. As found: {lowered(reason)}"
        return {"part": one.part, "name": part.name, "count": count, "reason": reason}

    def loads(self) -> list[Row]:
        rows = []
        for use, told in zip(self.it.presses, self.it.presses_told, strict=True):
            name, _ = use.way
            load = self.it.unit.loads[name]
            rows.append(
                {
                    "name": f"{capital(name)}, {' and '.join(use.when)}",
                    "sentence": load.about or "",
                    "figures": [["", line] for line in told],
                    "cautions": [load.caution] if load.caution else [],
                }
            )
        return rows

    def passages(self) -> list[Row]:
        """The passages of the parts that this job has in hand."""
        unit = self.it.unit
        return [
            {
                "part": one.in_part,
                "sentence": f"{capital(name)}: {one.where}; flush it and count "
                f"{counted(one.openings, 'opening', 'openings')}.",
            }
            for name, one in unit.passages.items()
            if one.in_part in self.it.opened
        ]

    def proofs(self) -> list[Row]:
        return proof_rows(self.it, self.telling)

    def handover(self) -> list[str]:
        lines = []
        for one in self.it.unit.fluids.values():
            if one.when_opened and self.it.opened.isdisjoint(one.when_opened):
                continue
            change = f"; change it after {one.change_after}" if one.change_after else ""
            lines.append(f"{one.what}: {one.amount}{change}.")
        warranty = self.it.shop.warranty
        if warranty:
            says_how_long = re.search(r"\b(month|year)s?\b", warranty.words, re.IGNORECASE)
            months = "" if says_how_long else f"{counted(warranty.months, 'month', 'months')}. "
            lines.append(f"Warranty: {months}{warranty.words.rstrip('.')}.")
        return lines


def _group(one: Judgement) -> str:
    """Where a verdict is told: a good part in whose place another size goes in is not used again."""
    return one.verdict if one.replaced_by is None else "replaced"


def _without(reason: str, start: str) -> str:
    """A reason that stands beside what it starts with need not begin with it."""
    return capital(reason.removeprefix(start).lstrip(":, ")) if start else capital(reason)


def _step(step: PlannedStep) -> Row:
    early = "START EARLY" if step.waits else ""
    mark = "LOAD" if step.load else "READ" if step.reads else early or _MARKS.get(step.kind, "")
    notes = [*step.notes, *((f"carry on the {step.support}",) if step.support else ())]
    notes += [
        f"STILL LOADED: {loaded.load}, at most {at_most_joules(loaded.greatest_energy)}. Tag it."
        for loaded in step.loaded_after
        if step.kind == "take off"
    ]
    facts = [fact for fact in (step.tool, step.attitude and f"stands {step.attitude}") if fact]
    if facts:
        notes.insert(0, ", ".join(facts))
    return {
        "number": step.number,
        "mark": mark,
        "what": step.what,
        "torque": step.torque or "",
        "way": step.way_round or "",
        "notes": [] if step.kind == "prove" else notes,
        "cautions": list(step.cautions),
    }
