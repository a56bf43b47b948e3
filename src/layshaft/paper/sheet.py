"""The build sheet's words and figures, put together from a job that was worked through; where they stand is Typst's."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from layshaft.plan.judgement import Judgement
from layshaft.plan.rebuild import Rebuild
from layshaft.plan.result import ResultValue
from layshaft.plan.step import PlannedStep
from layshaft.quantity import LENGTH, Show

Row = dict[str, Any]
_TITLES = {
    "renew": "Renewed",
    "rework": "To be reworked and measured again",
    "measure again": "To be measured again",
    "ask": "To be asked",
    "open": "Not looked at or not measured yet",
    "reuse": "Used again",
}
_MARKS = {"prove": "PROOF", "turn": "TURN", "prepare": "START EARLY"}
DEFER = "For trained people. Maker's data, equipment ratings and local codes come first."


def build_sheet(rebuilt: Rebuild) -> Row:
    """All that the template asks for, as plain data."""
    teller = _Sheet(rebuilt)
    job, shop, unit = rebuilt.job, rebuilt.shop, rebuilt.unit
    invented = " Invented data." if unit.invented or job.invented else ""
    return {
        "title": f"Build sheet {job.id}, {unit.name} {unit.variant}",
        "paper": "us-letter" if shop.paper == "letter" else "a4",
        "foot": DEFER + invented,
        "shop": {"name": shop.name, "note": "invented shop" if shop.invented else ""},
        "unit": {"name": unit.name, "variant": unit.variant},
        "job": {"id": job.id, "serial": job.serial or "not given", "complaint": job.intake.complaint or ""},
        "facts": teller.facts(),
        "headline": teller.headline(),
        "now": list(rebuilt.now),
        "cautions": list(unit.cautions),
        "open": teller.open(),
        "fits": teller.fits(),
        "chosen": teller.chosen(),
        "others": teller.others(),
        "found": teller.found(),
        "loads": teller.loads(),
        "assembly": [_step(step) for step in rebuilt.assembly.steps],
        "proofs": teller.proofs(),
        "price": teller.price(),
        "orders": teller.orders(),
        "handover": teller.handover(),
        "signatures": ["built by", "checked by a second person", "received by", "date"],
    }


class _Sheet:
    def __init__(self, rebuilt: Rebuild) -> None:
        self.it = rebuilt
        system = "inch" if rebuilt.shop.units == "inch" else "metric"
        self.show = Show(system, is_typographic=True)

    def named(self, part: str) -> str:
        return self.it.unit.parts[part].name

    def facts(self) -> list[list[str]]:
        job, book = self.it.job, self.it.unit
        return [
            ["customer", job.customer.name if job.customer else "not given"],
            ["serial", job.serial or "not given"],
            ["came in", job.opened],
            ["sheet of", job.today],
            ["unit book", f"{book.id}, revision {book.revision}"],
            ["shop file", f"{self.it.shop.id}, revision {self.it.shop.revision}"],
            ["maker", book.maker],
            ["bench", str(job.temperature.text) if job.temperature else "temperature not written"],
        ]

    def headline(self) -> list[str]:
        verdicts = [one.verdict for one in self.it.judgements.values()]
        counted = [f"{verdicts.count(verdict)} {words}" for verdict, words in _COUNTS.items() if verdict in verdicts]
        lines = [f"Of {len(verdicts)} kinds of part: {', '.join(counted)}."]
        outside = [one.name for one in self.it.results.values() if one.verdict == "outside"]
        doubtful = [one.name for one in self.it.results.values() if one.verdict in ("not sure", "open")]
        limited = sum(1 for one in self.it.results.values() if one.verdict == "inside")
        lines.append(f"{limited} clearances and figures are inside their limits as built.")
        if outside:
            lines.append(f"Outside: {', '.join(outside)}.")
        if doubtful:
            lines.append(f"Not settled yet: {', '.join(doubtful)}.")
        if self.it.open or doubtful or outside:
            lines.append("The unit is not released while anything here is open.")
        return lines

    def open(self) -> list[Row]:
        points = [{"sentence": point.sentence, "how": ""} for point in self.it.open]
        return points + [{"sentence": sentence, "how": ""} for sentence in self.it.findings]

    def fits(self) -> list[Row]:
        return [self._fit(one) for one in self.it.results.values() if one.limit is not None]

    def _fit(self, one: ResultValue) -> Row:
        limit = self.it.unit.results[one.name].limit
        scale = None if one.value is None or limit is None else _scale(one, limit.low, limit.high)
        value = ""
        if one.value is not None and self.it.unit.results[one.name].limit is not None:
            dimension = self.it.unit.results[one.name].limit.dimension
            value = self.show.show_both(one.value, dimension) if dimension == LENGTH else ""
        return {
            "name": one.name[0].upper() + one.name[1:],
            "value": value,
            "sentence": one.sentence,
            "limit": one.limit or "",
            "scale": scale,
        }

    def chosen(self) -> list[Row]:
        parts = self.it.fit.sizes
        size_lines = [line for line in self.it.fit.sentences if line.split(" ", 1)[0] in self.it.unit.parts]
        found = [{"part": line.split(" ", 1)[0], "sentence": line.split(" ", 1)[1]} for line in size_lines]
        told = {row["part"] for row in found}
        both = ((part, size) for part, size in parts.items() if part not in told)
        return found + [{"part": part, "sentence": self.show.show_both(size, LENGTH)} for part, size in both]

    def others(self) -> list[str]:
        lines = []
        for choice in self.it.fit.others[:4]:
            sizes = ", ".join(f"{part} {self.show.show(size, LENGTH)}" for part, size in choice.sizes.items())
            gives = ", ".join(f"{name} {self.show.show(value, LENGTH)}" for name, value in choice.values.items())
            lines.append(f"{sizes}: {gives}.")
        return lines

    def found(self) -> list[Row]:
        groups = []
        for verdict, title in _TITLES.items():
            rows = [self._found(one) for one in self.it.judgements.values() if one.verdict == verdict]
            if rows:
                groups.append({"title": f"{title} ({len(rows)})", "rows": rows})
        return groups

    def _found(self, one: Judgement) -> Row:
        part = self.it.unit.parts[one.part]
        count = ""
        if part.count > 1:
            count = f"{one.renew_count} of {part.count}" if one.renew_count else str(part.count)
        return {"part": one.part, "name": part.name, "count": count, "reason": _without_name(one.reason, part.name)}

    def loads(self) -> list[Row]:
        rows = []
        for use, told in zip(self.it.presses, self.it.presses_told, strict=True):
            name, _ = use.way
            load = self.it.unit.loads[name]
            rows.append(
                {
                    "name": f"{name[0].upper()}{name[1:]}, {' and '.join(use.when)}",
                    "sentence": load.about or "",
                    "figures": [["", line] for line in told],
                    "cautions": [load.caution] if load.caution else [],
                }
            )
        return rows

    def proofs(self) -> list[Row]:
        done = {one.proof: one for one in self.it.job.proved}
        names = [step.proof for step in self.it.assembly.steps if step.proof]
        return [self._proof(name, done.get(name)) for name in names]

    def _proof(self, name: str, done: Any) -> Row:
        proof = self.it.unit.proofs[name]
        limit = proof.limit.text if proof.limit else ""
        if not limit and proof.result and self.it.unit.results[proof.result].limit:
            limit = self.it.unit.results[proof.result].limit.text
        found = ""
        if done is not None:
            found = " ".join(word for word in (done.figure.text if done.figure else "", done.outcome or "") if word)
        return {
            "name": proof.name,
            "how": proof.how,
            "proves": proof.proves,
            "not": proof.does_not_prove,
            "limit": limit or proof.expects or "",
            "found": found,
            "caution": proof.caution or "",
        }

    def price(self) -> Row:
        price = self.it.price
        other = (line for line in price.lines if line.kind != "labour")
        parts = [[f"{_number(line.number)}{line.what}", str(line.amount)] for line in other]
        labour = [[line.what, str(line.amount)] for line in price.lines if line.kind == "labour"]
        notes = list(price.open)
        notes += [f"Core deposit, apart from the total: {core.name}, {core.deposit}." for core in price.cores]
        if price.if_renewed is not None:
            notes.append(f"Were all that is undecided renewed: {price.if_renewed}.")
        return {"lines": [*labour, *parts], "total": ["In all", price.told()], "notes": notes}

    def orders(self) -> list[Row]:
        return [
            {
                "part": one.code,
                "sentence": f"{one.pieces} {one.name}, from {one.offer.source}, {one.cost}"
                + (f", {self.show.show(one.size, LENGTH)}" if one.size is not None else ""),
            }
            for one in self.it.order.bought
        ]

    def handover(self) -> list[str]:
        fluids = [f"{one.what}: {one.amount}." for one in self.it.unit.fluids.values()]
        warranty = self.it.shop.warranty
        promise = [f"{warranty.words} {warranty.months} months."] if warranty else []
        return [*fluids, *promise]


_COUNTS = {
    "reuse": "used again",
    "renew": "renewed",
    "rework": "reworked",
    "measure again": "to be measured again",
    "ask": "to be asked",
    "open": "not yet looked at or measured",
}


def _without_name(reason: str, name: str) -> str:
    """A reason that stands beside the part's name need not begin with it."""
    rest = reason.removeprefix(name).lstrip(":, ")
    return rest[:1].upper() + rest[1:]


def _number(number: Fraction) -> str:
    return f"{number} × " if number.denominator == 1 and number > 1 else ""


def _step(step: PlannedStep) -> Row:
    mark = "LOAD" if step.load else _MARKS.get(step.kind, "")
    notes = [*step.notes, *((f"carry on the {step.support}",) if step.support else ())]
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


def _scale(one: ResultValue, low: Fraction | None, high: Fraction | None) -> Row | None:
    """Places on the ruler from 0 to 1: the limit takes its middle half; none where the limit has one end."""
    if low is None or high is None or low == high or one.value is None:
        return None
    width = float(high - low)

    def at(figure: Fraction) -> float:
        return 0.25 + 0.5 * float(figure - low) / width

    return {
        "low": 0.25,
        "high": 0.75,
        "value": at(one.value),
        "least": at(one.low if one.low is not None else one.value),
        "most": at(one.high if one.high is not None else one.value),
    }

