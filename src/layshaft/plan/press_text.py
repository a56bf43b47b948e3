"""A press plan, a refusal or a load report as lines of text; force, energy, speed and travel up, room left down."""

from __future__ import annotations

from collections.abc import Iterator

from layshaft.mechanics import cut
from layshaft.plan.bench import Bench
from layshaft.plan.freeing import retainers
from layshaft.plan.held import Held
from layshaft.plan.load import PRESS
from layshaft.plan.load_report import Fall, LoadReport, Removal
from layshaft.plan.phrase import listed
from layshaft.plan.piece_share import PieceShare
from layshaft.plan.press import PressPlan, Refusal
from layshaft.plan.press_home import HomePlan, HomeStage
from layshaft.plan.press_stage import Stage
from layshaft.plan.ram import RamFit
from layshaft.plan.spring_fact import Band
from layshaft.plan.telling import between, lowered
from layshaft.quantity import ANGLE, ENERGY, FORCE, LENGTH, PRESSURE, SPEED, Dimension, Show

DEFER = "The maker's data, the rating plate of press and tool, and local rules come before this sheet."
SLACK = "Free only when it is slack: its legs move by hand."
ZERO = "A gauge never proves zero: it is free when its parts rock freely at the longest free length."


class Teller:
    """Tells plans of one unit in the shop's units."""

    def __init__(self, bench: Bench, show: Show | None = None) -> None:
        self.bench = bench
        self.show = show or Show()

    def plan(self, plan: PressPlan | Refusal) -> tuple[str, ...]:
        """A press plan or a refusal, line by line."""
        if isinstance(plan, Refusal):
            return tuple(self._refusal(plan))
        return tuple(self._plan(plan))

    def home(self, plan: HomePlan | Refusal) -> tuple[str, ...]:
        """Pressing home, line by line."""
        if isinstance(plan, Refusal):
            return tuple(self._refusal(plan))
        made = plan.release_plan
        return (
            f"Home again, {listed((made.load, *made.taken.others))}: {made.kind}.",
            *(self._home_stage(at, stage) for at, stage in enumerate(plan.stages, 1)),
            *made.notes,
            DEFER,
        )

    def report(self, reports: tuple[LoadReport, ...], falls: tuple[Fall, ...] = ()) -> tuple[str, ...]:
        """What is loaded and what falls, line by line."""
        lines = [line for report in reports for line in self._report(report)]
        lines += [f"{self.named(fall.part)} falls as the unit stands: {fall.mass:.1f} kg." for fall in falls]
        return tuple(lines)

    def named(self, part: str) -> str:
        """A part's id and name."""
        return f"{part} {lowered(self.bench.unit.parts[part].name)}"

    def _refusal(self, refusal: Refusal) -> Iterator[str]:
        yield f"No plan for {refusal.load}: {len(refusal.lacks)} thing{'s' * (len(refusal.lacks) > 1)} in the way."
        yield from refusal.sentences
        if refusal.pressed is not None:
            yield f"Known so far, pressed: {self._held(refusal.pressed)}."
        elif refusal.installed is not None:
            yield f"Known so far, installed: {self._held(refusal.installed)}."

    def _plan(self, plan: PressPlan) -> Iterator[str]:
        is_wound = plan.left_before_solid is None
        tool = f" with {plan.tool}" if plan.tool else ""
        yield f"Release of {listed((plan.load, *plan.taken.others))}: {plan.kind}{tool}."
        if plan.taken.others:
            yield f"They are let go together: force and energy are of all, lengths those of {plan.load}."
        yield from plan.notes
        yield from self._taken_up(plan, is_wound)
        if not is_wound:
            yield from self._pressing(plan)
        else:
            yield f"To free: {self._up(plan.travel.high, ANGLE)}."
        yield (
            f"{self.named(plan.leaving.part)} could leave at up to {self._up(plan.speed, SPEED)}, "
            f"were all of {self._up(plan.greatest.energy.high, ENERGY)} to go into it."
        )
        yield from (self._stage(stage, is_wound) for stage in plan.stages if stage.kind != "closed" or stage.held_by)
        yield from self._freeing(plan.freeing, plan.load if plan.taken.others else "it")
        for part, with_tool in plan.reach:
            yield f"Keep in reach: {self.named(part)}{f' for {with_tool}' if with_tool else ''}."
        yield from self._reaction(plan)
        if plan.rams:
            yield from self._ram(plan.rams[0])
        if not is_wound:
            yield ZERO
        yield DEFER

    def _taken_up(self, plan: PressPlan, is_wound: bool) -> Iterator[str]:
        """How a load hangs when it is taken up, where that is another length than in the whole unit.

        Nothing holds one that is held already with all in reach off.
        """
        first = plan.stages[0]
        if is_wound or not plan.hangs_apart or not first.held_by:
            yield f"Installed: {self._held(plan.installed, is_wound)}."
            return
        yield f"When it is taken up, on {listed(self._holders(first.held_by))}: {self._held(first.held)}."
        yield f"Installed, in the whole unit: {self._held(plan.installed)}."

    def _pressing(self, plan: PressPlan) -> Iterator[str]:
        if plan.over.nominal:
            left = plan.left_before_solid
            assert left is not None
            yield f"Pressed {self.show.show(plan.over.nominal, LENGTH)} beyond installed: {self._held(plan.pressed)}."
            yield f"Left before solid then: {self._down(left.low, LENGTH)}."
            yield (
                f"Never more than {self._down(plan.most_over, LENGTH)} beyond installed; "
                f"there it pushes with up to {self._up(plan.greatest.force.high, FORCE)}."
            )
        yield f"Travel to free, margin counted: {self._up(plan.travel.high, LENGTH)}."

    def _stage(self, stage: Stage, is_wound: bool) -> str:
        head = f"{self.named(stage.part)} off" if stage.part else stage.kind.capitalize()
        if stage.kind == "free":
            return SLACK if is_wound else "Free only at its longest free length."
        text = f"{head}: up to {self._up(stage.held.energy.high, ENERGY)}, at most {self._up(stage.speed, SPEED)}."
        if stage.kind == "let off":
            return f"Let off, and STILL LOADED: up to {self._up(stage.held.energy.high, ENERGY)}; not free."
        if stage.without is None:
            return text
        still = stage.without.still
        rest = "nothing would hold it"
        if still is not None:
            rest = f"{', '.join(self._holders(stage.held_by))} would still hold {self._up(still.energy.high, ENERGY)}"
        lost = self._up(stage.without.energy, ENERGY)
        return f"{text} Should the release way give in then, it lets go up to {lost}; {rest}."

    def _holders(self, stops: tuple[str, ...]) -> tuple[str, ...]:
        parts = (part for stop in stops for part in self.bench.stop_parts.get(stop, ()))
        known = dict.fromkeys(part for part in parts if part in retainers(self.bench.unit))
        return tuple(self.named(part) for part in known) or stops[:3]

    def _freeing(self, freeing: cut.Cuts, what: str = "it") -> Iterator[str]:
        for chosen in freeing.sets:
            if not chosen:
                yield f"No retainer holds {what} any more."
                continue
            names = " and ".join(sorted(map(str, chosen)))
            yield f"Off together, {names} free {what}." if len(chosen) > 1 else f"{names} alone frees {what}."
        if freeing.fast:
            yield f"No retainer frees {what}: what holds it is no part that comes off by itself."
        if not freeing.is_complete:
            yield f"There may be more ways that free {what}: the search was cut off."

    def _reaction(self, plan: PressPlan) -> Iterator[str]:
        if plan.reaction is None:
            return
        yield f"The force goes toward the {plan.reaction.toward}, through {', '.join(plan.reaction.parts)}."
        force = self._up(plan.greatest.force.high, FORCE)
        for bearer in plan.reaction.bearers:
            if bearer.rating is not None:
                yield f"{self.named(bearer.part)} takes up to {force} of its {self._down(bearer.rating, FORCE)}."

    def _ram(self, ram: RamFit) -> Iterator[str]:
        if ram.reading is None or ram.scale is None:
            yield f"Press: {ram.press}; it has no gauge: work by stroke or by a load cell."
        elif ram.is_readable:
            yield f"Press: {ram.press}; its gauge shows {self._pressure(ram.reading)}."
        else:
            yield f"Press: {ram.press}; {self._unreadable(ram, ram.reading, ram.scale)}"
        if ram.room is not None:
            yield f"Left for tool and blocks: {self._down(ram.room, LENGTH)}; measure them before pressing."

    def _unreadable(self, ram: RamFit, reading: Band, scale: float) -> str:
        """Why a gauge does not show a force, and what to go by instead; the reading itself would only mislead."""
        if reading.high > scale:
            why = f"the force can be past the end of its scale, {self._down(scale, PRESSURE)}"
        else:
            word = "is" if reading.high < scale / 10 else "can be"
            why = f"the force {word} under a tenth of its scale, {self._up(scale, PRESSURE)}"
        least = "" if ram.least_shown is None else f"; it shows forces from {self._up(ram.least_shown, FORCE)}"
        return f"its gauge cannot show this force: {why}{least}. Work by stroke or by a load cell."

    def _pressure(self, reading: Band) -> str:
        return between(self.show, reading.low, reading.high, PRESSURE)

    def _home_stage(self, at: int, stage: HomeStage) -> str:
        text = f"{at}. {stage.kind}: {stage.what.rstrip('.')}"
        if stage.held.force.high:
            text += f"; up to {self._up(stage.held.force.high, FORCE)}"
        if stage.held.energy.high:
            text += f"; up to {self._up(stage.held.energy.high, ENERGY)}"
        if stage.drop is not None:
            text += f"; drops up to {self._up(stage.drop, LENGTH)}"
        if stage.load_step is not None:
            text += f", the force jumps by up to {self._up(stage.load_step, FORCE)}"
        return ". ".join((text, *(note.rstrip(".") for note in stage.notes))) + "."

    def _report(self, report: LoadReport) -> Iterator[str]:
        held = report.held
        force = f"pushing with up to {self._up(held.force.high, FORCE)} and " if held.force.high else ""
        yield f"LOADED: {report.load}, {force}holding up to {self._up(held.energy.high, ENERGY)}."
        if held.force.high:
            yield f"It {self._hangs(report)} now: {self._held(held)}."
        yield from (self._share(share) for share in report.shares)
        yield from report.notes
        if not report.is_sure:
            yield f"Nobody knows what holds {report.load}: stand clear."
        for removal in report.removals:
            if removal.is_open:
                yield self._removal(removal)
        later = ", ".join(removal.part for removal in report.removals if not removal.is_open)
        if later:
            yield f"Not to come off under this load, should they be in reach: {later}."
        yield from self._freeing(report.freeing)

    def _share(self, share: PieceShare) -> str:
        together = f" by {listed(share.loads)} together" if len(share.loads) > 1 else ""
        left = f"{share.left} of {share.count} {self.named(share.part)} {'is' if share.left == 1 else 'are'} left"
        carries = f"{left}: up to {self._up(share.force, FORCE)} on each{together}"
        if share.rating is None:
            return f"{carries}; what one is rated for is not given."
        rating = self._down(float(share.rating), FORCE)
        return f"{carries}, ABOVE its {rating}: stand clear." if share.is_over else f"{carries} of its {rating}."

    def _hangs(self, report: LoadReport) -> str:
        if PRESS in report.now.held_by:
            return f"is {PRESS}"
        hangs = "hangs" if report.is_sure else "may hang"
        return f"{hangs} on {listed(self._holders(report.now.held_by))}"

    def _removal(self, removal: Removal) -> str:
        rest = "nothing holds it after that"
        if removal.still is not None:
            holders = self._holders(removal.lets_go.still.held_by)
            holds = "holds" if len(holders) == 1 else "hold"
            rest = f"{', '.join(holders)} still {holds} {self._up(removal.still.energy.high, ENERGY)} after that"
        lost = self._up(removal.energy, ENERGY)
        if removal.of_all > removal.energy:
            lost += f" of it and up to {self._up(removal.of_all, ENERGY)} in all"
        speed = self._up(removal.speed, SPEED)
        return f"{self.named(removal.part)} off lets go up to {lost}, at most {speed}; {rest}."

    def _held(self, held: Held, is_wound: bool = False) -> str:
        if is_wound:
            return f"wound {self.show.show(held.length.nominal, ANGLE)}, up to {self._up(held.energy.high, ENERGY)}"
        return (
            f"{self.show.show(held.length.nominal, LENGTH)} long, {self._up(held.force.nominal, FORCE)} as drawn "
            f"and up to {self._up(held.force.high, FORCE)}, {self._up(held.energy.nominal, ENERGY)} as drawn and up to "
            f"{self._up(held.energy.high, ENERGY)}"
        )

    def _up(self, value: float, dimension: Dimension) -> str:
        return self.show.show(value, dimension, "up")

    def _down(self, value: float, dimension: Dimension) -> str:
        return self.show.show(value, dimension, "down")
