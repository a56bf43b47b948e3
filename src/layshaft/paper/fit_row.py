"""What a sheet says of clearances and sizes: results against limits, what was chosen, what would settle the rest."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from layshaft.paper.wording import capital
from layshaft.plan.fit import FitChoice
from layshaft.plan.fit_text import miss_sentences, size_sentences
from layshaft.plan.proof_outcome import borne_out, failed_proofs
from layshaft.plan.rebuild import Rebuild
from layshaft.plan.result import ResultValue, percent
from layshaft.plan.telling import Telling
from layshaft.quantity import LENGTH, Limit

Row = dict[str, Any]
MOST_OTHERS = 4
MOST_SETTLING = 2


def limited(rebuilt: Rebuild) -> list[ResultValue]:
    """The results that a limit is set on, as this job tells them."""
    return [one for name, one in rebuilt.results.items() if one.limit is not None and name in rebuilt.fit.values]


def is_empty(rebuilt: Rebuild) -> bool:
    """Whether nothing has been looked at, measured or chosen yet."""
    job = rebuilt.job
    return not (job.looks or job.readings or job.choices)


def fit_lines(rebuilt: Rebuild) -> list[str]:
    """What the headline says of the limits: how many are met by what was chosen, and which are not."""
    if is_empty(rebuilt):
        return []
    lines = []
    rows = limited(rebuilt)
    proved = borne_out(rebuilt.unit, rebuilt.job)
    doubtful = [one for one in rows if one.verdict == "not sure" and one.name in proved]
    inside = [one for one in rows if one.verdict == "inside" and one.origin != "drawn"]
    if inside or doubtful:
        met = [*inside, *doubtful]
        come = "comes inside its limit" if len(met) == 1 else "come inside their limits"
        sizes = "with the sizes chosen" if rebuilt.fit.sizes else "as measured"
        drawn = sum(not one.is_settled and one.name not in proved for one in inside)
        partly = f", {drawn} of them partly as drawn or listed" if drawn else ""
        lines.append(f"{len(met)} of {len(rows)} limited figures {come} {sizes}{partly}; {_built(rebuilt, rows)}.")
    if doubtful:
        lines.append(f"Not sure by measuring, and borne out by a proof: {', '.join(one.name for one in doubtful)}.")
    for verdict, words in (("outside", "Outside"), ("not sure", "Not sure"), ("open", "Cannot be said yet")):
        names = [one.name for one in rows if one.verdict == verdict and one not in doubtful]
        if names:
            lines.append(f"{words}: {', '.join(names)}.")
    return lines


def _built(rebuilt: Rebuild, rows: list[ResultValue]) -> str:
    """How many of the limited figures the built unit itself has shown."""
    shown = {one.result for one in rebuilt.job.readings if one.new} | set(borne_out(rebuilt.unit, rebuilt.job))
    built = sum(one.name in shown for one in rows)
    return f"{built} of them shown by the built unit" if built else "none is built yet"


def unsettled(rebuilt: Rebuild) -> Iterator[Row]:
    """The limited results that are not both inside and measured, each with what would settle it."""
    if is_empty(rebuilt):
        return
    words = {
        "open": "cannot be said yet",
        "outside": "is outside its limit",
        "not sure": "is inside its limit, but not surely enough",
        "inside": "stands partly on drawn or listed sizes",
    }
    proved = _proved(rebuilt)
    rows = [one for one in limited(rebuilt) if _is_open(one, proved.get(one.name) == "")]
    order = ("outside", "not sure", "open", "inside")
    for one in sorted(rows, key=lambda row: order.index(str(row.verdict))):
        settled_by = (proved[one.name],) if proved.get(one.name) else _settled_by(rebuilt, one)
        more = len(settled_by) - MOST_SETTLING
        rest = f" And {more} more." if more > 0 else ""
        how = " ".join(settled_by[:MOST_SETTLING]) + rest
        yield {"sentence": f"{capital(one.name)} {words[str(one.verdict)]}. {how}".rstrip(), "how": ""}


def _is_open(one: ResultValue, is_borne_out: bool) -> bool:
    """Whether something is still to be done about a limited result; what a proof has borne out is settled by it."""
    if one.verdict == "inside":
        return bool(one.settled_by) and not is_borne_out
    return one.verdict != "not sure" or not is_borne_out


def _proved(rebuilt: Rebuild) -> dict[str, str]:
    """What is to be done about each result that a proof has been recorded of: nothing where it speaks for it."""
    unit = rebuilt.unit
    told = dict.fromkeys(borne_out(unit, rebuilt.job), "")
    for one in failed_proofs(unit, rebuilt.job):
        again = f'The proof "{one.name}" speaks against it: find why, mend it and prove again.'
        if one.is_overtaken:
            again = f'The proof "{one.name}" was made before its parts were off or found bad: prove it again.'
        proof = unit.proofs[one.proof]
        told |= dict.fromkeys((*((proof.result,) if proof.result else ()), *proof.settles), again)
    return told


def _settled_by(rebuilt: Rebuild, one: ResultValue) -> tuple[str, ...]:
    """What settles a result: a chosen part to be measured, where the fit knows of one, before finer gauges."""
    if one.verdict == "not sure":
        points = [point.sentence for point in rebuilt.fit.waiting if one.name in point.decides]
        if points:
            return tuple(points)
    return one.settled_by


def fit_rows(rebuilt: Rebuild) -> list[Row]:
    """Every limited result: what it comes to, where that is from, its place against its limit."""
    return [_fit_row(rebuilt, one) for one in limited(rebuilt)]


def _fit_row(rebuilt: Rebuild, one: ResultValue) -> Row:
    limit = rebuilt.unit.results[one.name].limit
    return {
        "name": capital(one.name),
        "told": one.sentence.removeprefix(one.name).lstrip(": ") + _more(rebuilt, one),
        "sentence": one.sentence,
        "limit": one.limit or "",
        "origin": one.origin,
        "scale": None if limit is None or one.value is None else _scale(one, limit, one.value),
    }


def _more(rebuilt: Rebuild, one: ResultValue) -> str:
    """What bears a figure out that was not measured in every link, or not surely enough."""
    proof = borne_out(rebuilt.unit, rebuilt.job).get(one.name)
    if proof is not None and one.verdict in ("inside", "not sure") and not one.is_settled:
        return f' The proof "{proof}" bears it out.'
    if one.verdict == "inside" and not one.is_settled and not one.settled_by:
        return " The book plans no reading of the rest; at its worst it is inside."
    return ""


def size_rows(rebuilt: Rebuild, telling: Telling) -> list[Row]:
    """Each size chosen and where it comes from, and why none is chosen for the places that are left."""
    fit = rebuilt.fit
    lines = list(size_sentences(rebuilt.unit, fit.sizes, fit.sources, fit.pieces, telling))
    lines += [] if is_empty(rebuilt) else fit.unchosen.values()
    return [{"part": line.partition(" ")[0], "sentence": line.partition(" ")[2]} for line in lines]


def miss_lines(rebuilt: Rebuild, telling: Telling) -> list[str]:
    """What the drawer does not have, and what would do."""
    misses = rebuilt.fit.misses
    return [line for one in misses for line in miss_sentences(rebuilt.unit, one, telling)]


def other_lines(rebuilt: Rebuild, telling: Telling) -> list[str]:
    """Other sizes that would do, with what they give; each said once."""
    lines = []
    for choice in rebuilt.fit.others:
        sizes = ", ".join(f"{part} {telling.size(size)}" for part, size in choice.sizes.items())
        gives = ", ".join(
            f"{name} {_value(rebuilt, name, value, telling)}{_doubt(choice, name)}"
            for name, value in choice.values.items()
        )
        lines.append(f"{sizes}: {gives}.")
    return list(dict.fromkeys(lines))[:MOST_OTHERS]


def _doubt(choice: FitChoice, name: str) -> str:
    if name in choice.open:
        return " (an estimate: it waits for a reading)"
    return f" (only {percent(choice.doubts[name])} likely inside)" if name in choice.doubts else ""


def _value(rebuilt: Rebuild, name: str, value: Fraction, telling: Telling) -> str:
    limit = rebuilt.unit.results[name].limit
    return telling.value(value, LENGTH if limit is None else limit.dimension, limit)


def _scale(one: ResultValue, limit: Limit, value: Fraction) -> Row | None:
    """Places on the ruler from 0 to 1: the limit takes its middle half; none where the limit has one end."""
    low, high = limit.low, limit.high
    if low is None or high is None or low == high:
        return None
    width = float(high - low)

    def at(figure: Fraction) -> float:
        share = float(figure - low) / width
        # A preload grows to the right, as its limit is written.
        return 0.25 + 0.5 * (1 - share if limit.is_preload else share)

    ends = sorted(at(end) for end in one.worst or (value, value))
    return {"low": 0.25, "high": 0.75, "value": at(value), "least": ends[0], "most": ends[1]}
