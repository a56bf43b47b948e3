"""A whole job of any shipped book: everything looked at, read and taken off, built, and every proof held."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from layshaft.book import load_book
from layshaft.book.definition import Part, Result, Shop, Unit
from layshaft.book.definition.part import ReadingPlan
from layshaft.book.sheet import load_job, load_shop
from layshaft.book.sheet_check import narrow_shop
from layshaft.book.size import Sizes
from layshaft.plan.rebuild import Rebuild, rebuild
from layshaft.quantity import Limit, Show
from tests.paper.two_jobs import BOOKS

HEAD = """\
layshaft job: 1
id: F-1
invented: true
book: {{id: {book}, revision: {revision}}}
shop: {{id: kettle-lane, revision: {shop}}}
variant: {variant}
opened: 2026-11-02
today: 2026-11-03
temperature: 20 °C
"""


@dataclass(frozen=True)
class FullJob:
    """What a careful shop types of one unit that turns out good, in the order it comes to be known."""

    unit: Unit
    shop: Shop

    @classmethod
    @cache
    def of(cls, book: str, variant: str) -> FullJob:
        """Of a shipped book, in the demo shop."""
        opened = load_book((BOOKS / book / "book.yaml").read_bytes(), book)
        shop = load_shop((BOOKS / "demo" / "shop.yaml").read_text("utf-8"), "shop.yaml").content
        return cls(opened.unit(variant), narrow_shop(shop, opened, variant))

    def worked_through(self, *more: str) -> Rebuild:
        """Looked at and read as it came in, what is always renewed read new, and more lines beside."""
        always = {name for name, part in self.unit.parts.items() if part.renew == "always"}
        return self._rebuilt([*self._looks(), "readings:", *self._readings(always), *more])

    def proofs(self, *left_out: str) -> list[str]:
        """Every proof held, each with a figure where it has one."""
        lines = ["proved:"]
        for name, proof in self.unit.proofs.items():
            limit = proof.limit or (self.unit.results[proof.result].limit if proof.result else None)
            figure = f"figure: {_typed(limit)}, " if limit is not None else ""
            if name not in left_out:
                lines.append(f"  - {{proof: {name}, {figure}outcome: held, by: maddick}}")
        return lines

    def built(self) -> list[str]:
        """Every result that the book says how to read, read off the built unit."""
        return [
            f"  - {{result: {name}, new: true, figures: [{', '.join([_good(result)] * result.read.places)}], "
            f"gauge: {self._gauge(result.read.gauge)}, by: maddick}}"
            for name, result in self.unit.results.items()
            if result.read is not None
        ]

    def _rebuilt(self, lines: list[str]) -> Rebuild:
        head = HEAD.format(
            book=self.unit.id, revision=self.unit.revision, shop=self.shop.revision, variant=self.unit.variant
        )
        return rebuild(self.unit, load_job(head + "\n".join(lines) + "\n", "job.yaml").content, self.shop)

    def _looks(self) -> Iterator[str]:
        yield "looks:"
        for name, part in self.unit.parts.items():
            for look, plan in part.looks.items():
                good = next(grade for grade, verdict in plan.grades.items() if verdict == "reuse")
                yield f"  - {{part: {name}, look: '{look}', grade: '{good}', by: maddick}}"

    def _readings(self, renewed: set[str]) -> Iterator[str]:
        for name, part in self.unit.parts.items():
            for reading, plan in part.readings.items():
                new = ", new: true" if name in renewed else ""
                load = f", load: {plan.load}" if plan.load else ""
                figures = ", ".join([self._figure(name, part, plan)] * plan.places)
                for piece in range(1, part.count + 1):
                    yield (
                        f"  - {{part: {name}, reading: '{reading}', piece: {piece}, figures: [{figures}], "
                        f"gauge: {self._gauge(plan.gauge)}, by: maddick{new}{load}}}"
                    )

    def _figure(self, name: str, part: Part, plan: ReadingPlan) -> str:
        if plan.from_ is not None and plan.to is not None:
            form = Sizes(self.unit).distance(name, plan.from_, plan.to)
            return f"{float(abs(Sizes(self.unit).worst(form).nominal) * 1000):.4f} mm"
        return _typed(plan.new or plan.reuse)

    def _gauge(self, kind: str) -> str:
        return next(name for name, gauge in self.shop.gauges.items() if gauge.class_ == kind)


def _good(result: Result) -> str:
    return result.drawn.text if result.drawn is not None else _typed(result.limit)


def _typed(limit: Limit | None) -> str:
    """A figure well inside a limit, as it would be typed."""
    assert limit is not None
    middle = limit.middle
    if middle is None:
        middle = limit.high / 2 if limit.high is not None else (limit.low or Fraction(0)) * 21 / 20
    return Show(decimals=3).show_exact(middle, limit.dimension)
