"""A job's readings laid over its unit: what is known of every size, as found and as it will be built."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from functools import cached_property

from layshaft.book.definition import Job, Shop, Unit
from layshaft.book.size import Form, Leaf, Span
from layshaft.plan.figure import Figure, Finding, read_figures
from layshaft.plan.judgement import Judgement
from layshaft.plan.proof_figure import proved_figures
from layshaft.plan.read_size import Doubt, ReadSizes, Scalar
from layshaft.plan.rework import Reworked, done_reworks, gone_by

Key = tuple[str, str, int, bool]


class Measured:
    """The readings of one job on its unit."""

    def __init__(self, unit: Unit, job: Job, shop: Shop) -> None:
        self.unit = unit
        self.job = job
        self.shop = shop
        figures, findings = read_figures(unit, job, shop)
        self.reworks: tuple[Reworked, ...] = done_reworks(unit, job, figures)
        self.gone: dict[Key, Reworked] = {}
        """Readings that were taken before a rework, and count no more."""
        read = self._standing({_key(one): (at, one) for at, one in enumerate(figures)})
        # Proofs come after every reading.
        proved = self._standing({_key(one): (len(figures), one) for one in proved_figures(unit, job, shop)})
        # What a proof gave tells less than a reading of the same, place by place, unless that one still waits.
        read = {key: one for key, one in read.items() if key not in proved or not _is_unfinished(one)}
        self.figures: dict[Key, Figure] = proved | read
        self.findings: tuple[Finding, ...] = tuple(one for one in findings if _key(one) not in self.gone)

    def _standing(self, read: Mapping[Key, tuple[int, Figure]]) -> dict[Key, Figure]:
        """The figures that no rework has made void."""
        standing = {}
        for key, (at, figure) in read.items():
            by = gone_by(self.unit, self.reworks, figure, at)
            if by is None:
                standing[key] = figure
            else:
                self.gone[key] = by
        return standing

    def figure(self, part: str, reading: str, piece: int = 0, is_new: bool = False) -> Figure | None:
        """The last figure of a reading of one piece; pieces count from 0."""
        return self.figures.get((part, reading, piece, is_new))

    def waiting(self, figure: Figure) -> Finding | None:
        """Why a figure waits, if it does."""
        return figure.waits

    def used(self, part: str, reading: str, piece: int = 0, is_new: bool = False) -> Figure | None:
        """The figure, unless it waits."""
        figure = self.figure(part, reading, piece, is_new)
        return None if figure is None or figure.is_waiting else figure

    @cached_property
    def found(self) -> ReadSizes:
        """Sizes of the unit as it came in: readings of its own parts, drawn where there are none."""
        sizes = ReadSizes(self.unit)
        sizes.off = self._off
        for part, definition in self.unit.parts.items():
            for piece in range(definition.count):
                self._lay(sizes, part, piece, (False,))
        for (part, name, _, is_new), figure in self.figures.items():
            if part or is_new:
                continue
            self._set_direct(sizes, name, figure, False)
        self._lay_gone(sizes)
        return sizes

    def sizes(
        self,
        judgements: Mapping[str, Judgement] | None = None,
        chosen: Mapping[Leaf, tuple[Span, Doubt | None]] | None = None,
        unbuilt: Collection[str] = (),
    ) -> ReadSizes:
        """Sizes as found, or, once there are verdicts, as the unit will be built.

        Built, a renewed piece has its new part's reading or stands as drawn, and `chosen` sizes go over all. What
        was read straight off the unit with parts in it that are changed is corrected by what they differ. Of the
        results in `unbuilt` what was read straight off the built unit is left out: sizes are chosen before that.
        """
        if judgements is None:
            return self.found
        sizes = ReadSizes(self.unit, found=self.found)
        sizes.off = self._off
        for part, definition in self.unit.parts.items():
            judged = judgements.get(part)
            renewed = judged.renewed_pieces if judged is not None else frozenset()
            for piece in range(definition.count):
                has_new = self._lay(sizes, part, piece, (True,) if piece in renewed else (True, False))
                if piece in renewed or has_new:
                    sizes.changed.add((part, piece))
        for leaf, (span, doubt) in (chosen or {}).items():
            sizes.set_reading(leaf, span, doubt)
            sizes.changed.add((leaf.part, leaf.piece))
        self._lay_direct(sizes, unbuilt)
        return sizes

    def _lay(self, sizes: ReadSizes, part: str, piece: int, kinds: tuple[bool, ...]) -> bool:
        """Lay the readings of one piece over its sizes; tells whether one of a new part was there."""
        has_new = False
        for name, plan in self.unit.parts[part].readings.items():
            figure = next((one for kind in kinds if (one := self.used(part, name, piece, kind)) is not None), None)
            if figure is None or figure.missing:
                # A mean of too few places is no size yet.
                if any((part, name, piece, kind) in known for kind in kinds for known in (self.figures, self.gone)):
                    sizes.waited.add((part, name, piece))
                continue
            has_new = has_new or figure.is_new
            if plan.from_ is not None and plan.to is not None:
                span = Span.exactly(figure.size)
                sizes.set_reading(Leaf(part, plan.from_, plan.to, piece), span, doubt_of(figure))
            sizes.set_scalar(part, name, piece, Scalar(figure.value, doubt_of(figure), figure.places))
        return has_new

    @property
    def _off(self) -> frozenset[str]:
        return frozenset(done.off for done in self.job.done if done.off is not None)

    def is_read_built(self, result: str) -> bool:
        """Whether a result has been read straight off the built unit."""
        figure = self.figure("", result, is_new=True)
        return figure is not None and not figure.is_waiting and not figure.missing

    def _lay_direct(self, sizes: ReadSizes, unbuilt: Collection[str]) -> None:
        """Results read straight off the unit: of the built one as they are, of the unit as found corrected."""
        for (part, name, _, is_new), figure in self.figures.items():
            if part or (is_new and name in unbuilt):
                continue
            if not is_new and name not in unbuilt and ("", name, 0, True) in self.figures:
                continue
            renewed = () if is_new else self._renewed_behind(sizes, name)
            if renewed:
                sizes.dropped[name] = renewed
            else:
                self._set_direct(sizes, name, figure, is_new)
        self._lay_gone(sizes)

    def _lay_gone(self, sizes: ReadSizes) -> None:
        """Results that were read before a rework, and those that no drawing tells any more since a face was moved."""
        for (part, name, _, _), by in self.gone.items():
            if not part and (by.part, by.piece) not in sizes.changed:
                sizes.reworked[name] = by.part
        for name, result in self.unit.results.items():
            if result.read is None or name in sizes.direct or result.chain is None:
                continue
            moved = {one.part for one in self.reworks if one.moves_faces and (one.part, one.piece) not in sizes.changed}
            own = [term for term in result.chain if term.kind == "distance" and term.part in moved]
            leaves = [leaf for term in own for leaf in (sizes.term(term) or Form()).terms]
            if any(not sizes.is_read(leaf) for leaf in leaves):
                sizes.waited.add(("", name, 0))

    def _set_direct(self, sizes: ReadSizes, name: str, figure: Figure, is_built: bool) -> None:
        if figure.is_waiting or figure.missing:
            sizes.waited.add(("", name, 0))
            return
        sizes.set_direct(name, figure.size, doubt_of(figure), is_built)
        read = self.unit.results[name].read
        if read is not None and read.decides == "worst":
            sizes.apart[name] = (min(figure.places) - figure.size, max(figure.places) - figure.size)

    def _renewed_behind(self, sizes: ReadSizes, result: str) -> tuple[str, ...]:
        """The renewed parts of a result whose links are all known: a reading of it as found tells nothing more then.

        Where a link has no figure of its own, the reading is the one way to know it, and is corrected instead.
        """
        form = self.found.chain_form(result)
        links = [] if form is None else [leaf for leaf in form.terms if leaf.part and not self._is_chosen(leaf.part)]
        if any(not sizes.is_read(leaf) and sizes.span(leaf).low != sizes.span(leaf).high for leaf in links):
            return ()
        return tuple(dict.fromkeys(leaf.part for leaf in links if (leaf.part, leaf.piece) in sizes.changed))

    def _is_chosen(self, part: str) -> bool:
        return self.unit.parts[part].selective is not None


def _key(figure: Figure | Finding) -> Key:
    return figure.part, figure.reading, figure.piece, figure.is_new


def _is_unfinished(figure: Figure) -> bool:
    """Whether a figure decides nothing yet: it waits, or places of it are still to be measured."""
    return figure.is_waiting or bool(figure.missing)


def doubt_of(figure: Figure) -> Doubt | None:
    """What a figure is worth, as chains need it."""
    if figure.uncertainty is None:
        return None
    return Doubt(figure.uncertainty.own, figure.uncertainty.bias, figure.gauge)
