"""What happened on the bench, what was chosen and what was proved: one thing an entry, of parts that there are."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from layshaft.book.definition import Choice, Done, Proved
from layshaft.book.definition.base import Definition, spaced
from layshaft.book.fault import Fault, Path
from layshaft.book.message import fault
from layshaft.book.nearness import listed
from layshaft.book.sheet_check.selective import is_had
from layshaft.book.sheet_check.subject import Subject, in_book, too_many
from layshaft.book.unlike import unlike
from layshaft.quantity import LENGTH

_DONE = {
    "off": ("way",),
    "partly": ("pieces_off",),
    "turned": (),
    "held": ("release",),
    "let_off": (),
    "stuck": ("to",),
    "seen": ("is_",),
    "zero_proved": (),
}
"""What can have happened, and what may stand beside it."""

_ASKED = {"partly": "pieces_off", "stuck": "to", "seen": "is_"}
"""What has to stand beside it."""


def event_faults(subject: Subject) -> Iterator[Fault]:
    """Everything in what was done, chosen and proved that unit and shop do not bear out."""
    for at, done in enumerate(subject.job.done):
        yield from _done_faults(subject, done, ("done", at))
    for at, choice in enumerate(subject.job.choices):
        yield from _choice_faults(subject, choice, ("choices", at))
    for at, proved in enumerate(subject.job.proved):
        yield from _proved_faults(subject, proved, ("proved", at))


def _one_thing(entry: Definition, kinds: Collection[str], path: Path) -> str | Fault:
    told = [kind for kind in kinds if getattr(entry, kind) is not None]
    if len(told) == 1:
        return told[0]
    needed = f"exactly one of {', '.join(f'`{spaced(kind)}`' for kind in kinds)}"
    return fault("one thing", path=path, found=listed(spaced(kind) for kind in told) or "none of them", needed=needed)


def _done_faults(subject: Subject, done: Done, path: Path) -> Iterator[Fault]:
    yield from subject.unknown_person(done.by, (*path, "by"))
    yield from subject.unknown_person(done.countersigned, (*path, "countersigned"))
    yield from subject.misplaced_moment(done.at, (*path, "at"))
    if done.countersigned is not None and done.countersigned == done.by:
        yield fault("countersigned by the same", path=(*path, "countersigned"), found=done.by or "")
    kind = _one_thing(done, _DONE, path)
    if isinstance(kind, Fault):
        yield kind
        return
    yield from _companion_faults(done, kind, path)
    name = getattr(done, kind)
    here: Path = (*path, spaced(kind))
    if kind == "turned":
        yield from in_book("attitude", name, subject.unit.attitudes, here)
    elif kind in ("held", "let_off", "zero_proved"):
        yield from in_book("load", name, subject.unit.loads, here)
    else:
        yield from subject.unknown_part(name, here)
    yield from subject.unknown_part(done.to, (*path, "to"))
    yield from _number_faults(subject, done, path)


def _companion_faults(done: Done, kind: str, path: Path) -> Iterator[Fault]:
    asked = _ASKED.get(kind)
    if asked is not None and getattr(done, asked) is None:
        key = spaced(asked)
        yield fault("missing key", path=(*path, key), found=f"`{spaced(kind)}` alone", needed=f"`{key}: ..`", key=key)
    for companion in ("way", "pieces_off", "release", "to", "is_"):
        if getattr(done, companion) is not None and companion not in _DONE[kind]:
            key = spaced(companion)
            yield fault("goes with another", path=(*path, key), found=key, beside=spaced(kind))


def _number_faults(subject: Subject, done: Done, path: Path) -> Iterator[Fault]:
    part = subject.unit.parts.get(done.off or done.partly or "")
    load = subject.unit.loads.get(done.held or "")
    if part is not None and done.off and done.way is not None and done.way > len(part.ways):
        yield _no_such("way", done.off, done.way, len(part.ways), (*path, "way"))
    if load is not None and done.held and done.release is not None and done.release > len(load.releases):
        yield _no_such("release", done.held, done.release, len(load.releases), (*path, "release"))
    if part is not None and done.partly and done.pieces_off is not None:
        here: Path = (*path, "pieces off")
        if done.pieces_off > part.count:
            yield too_many(done.partly, done.pieces_off, part.count, here)
        elif done.pieces_off == part.count:
            yield fault("off altogether", path=here, found=str(part.count), part=done.partly, count=str(part.count))


def _no_such(what: str, name: str, found: int, count: int, path: Path) -> Fault:
    needed = f"at most {count}" if count else f"no number: it has no {what}"
    return fault("no such way", path=path, found=str(found), needed=needed, name=name, what=what)


def _choice_faults(subject: Subject, choice: Choice, path: Path) -> Iterator[Fault]:
    yield from subject.unknown_person(choice.by, (*path, "by"), or_customer=True)
    kind = _one_thing(choice, ("renew", "keep", "fit"), path)
    if isinstance(kind, Fault):
        yield kind
        return
    name = getattr(choice, kind)
    part = subject.unit.parts.get(name)
    if part is None:
        yield from subject.unknown_part(name, (*path, kind))
        return
    if kind == "renew" and part.served_in is not None:
        yield fault("not sold", path=(*path, kind), found=part.served_in, part=name)
    if kind != "fit":
        if choice.size is not None:
            yield fault("goes with another", path=(*path, "size"), found="size", beside=kind)
        return
    if choice.size is None:
        yield fault("missing key", path=(*path, "size"), found="`fit` alone", needed="`size: ..`", key="size")
    elif part.selective is None:
        yield fault("not selective", path=(*path, "fit"), found=name, part=name)
    elif choice.size.dimension != LENGTH:
        found = f"{choice.size}, {choice.size.dimension.name}"
        yield fault("wrong dimension", path=(*path, "size"), found=found, needed=LENGTH.name)
    elif not is_had(subject, name, choice.size):
        sold = listed(size.text for size in part.selective.sizes)
        yield fault("size nowhere", path=(*path, "size"), found=choice.size.text, needed=sold, part=name)


def _proved_faults(subject: Subject, proved: Proved, path: Path) -> Iterator[Fault]:
    yield from subject.unknown_person(proved.by, (*path, "by"))
    yield from subject.misplaced_moment(proved.at, (*path, "at"))
    proof = subject.unit.proofs.get(proved.proof)
    if proof is None:
        yield from in_book("proof", proved.proof, subject.unit.proofs, (*path, "proof"))
        return
    if proved.figure is None and proved.outcome is None:
        yield fault("no outcome", path=path, found="neither")
    result = subject.unit.results.get(proof.result) if proof.result else None
    told = proof.limit or (result.limit or result.drawn if result is not None else None)
    figure = proved.figure
    if figure is not None and told is not None:
        here: Path = (*path, "figure")
        wrong = unlike(here, str(figure), figure.dimension, told.dimension, f"as `{proof.name}` asks")
        yield from (wrong,) if wrong else ()
