"""A job for a part that is sold only in an assembly takes all of the old assembly out; invented book."""

from __future__ import annotations

from layshaft.book import load_book
from layshaft.book.sheet import load_job, load_shop
from layshaft.plan.rebuild import Rebuild, rebuild

BOOK = """\
layshaft book: 1
id: race-box
name: Race box
maker: Tarnwick Gear Works
invented: true
revision: 1
dated: 2026-10-01
base: RB-10
starts: front up
attitudes: [front up]
axes: {main: {start: front, end: rear, start is up: front up}}
variants: {plain: {}}
parts:
  RB-10: {name: Case, class: case, mass: 2 kg}
  RB-20: {name: Race, class: race, mass: 0.2 kg, served in: RB-30, ways: [{toward: front, time: 1 min}],
    looks: {track: {how: eye, grades: {even: reuse, pitted: renew}}}}
  RB-30: {name: Bearing, class: bearing, mass: 0.3 kg, ways: [{toward: front, behind: [RB-20], time: 2 min}]}
  RB-35: {name: Cage, class: cage, mass: 0.1 kg, lies in: RB-30, served in: RB-30, ways: [{toward: front, time: 4 min}]}
  RB-40: {name: Slinger, class: slinger, mass: 0.1 kg, served in: RB-30,
    ways: [{toward: front, behind: [RB-30], time: 3 min}]}
  RB-50: {name: Sleeve, class: sleeve, mass: 0.1 kg, ways: [{toward: front, behind: [RB-40], time: 5 min}]}
"""
SHOP = """\
layshaft shop: 1
id: bench
name: Bench for tests
invented: true
revision: 1
dated: 2026-10-01
currency: CUR
labour rate: 60.00 CUR
prices:
  - {from: 2026-01-01, source: counter, lead: 1 day, parts: {RB-30: {list: 40.00 CUR, cost: 20.00 CUR}}}
"""
JOB = """\
layshaft job: 1
id: T-1
invented: true
book: {id: race-box, revision: 1}
shop: {id: bench, revision: 1}
variant: plain
opened: 2026-11-01
today: 2026-11-02
wants: [RB-20]
looks: [{part: RB-20, look: track, grade: GRADE, by: ferrow}]
"""


def worked(grade: str) -> Rebuild:
    unit = load_book(BOOK, "race-box.yaml").unit("plain")
    return rebuild(unit, load_job(JOB.replace("GRADE", grade), "job.yaml").content, load_shop(SHOP, "s.yaml").content)


def test_what_is_bought_new_comes_out_old() -> None:
    """Race, bearing with its cage, and slinger all come new with the one bearing: 1 + 2 + 3 min, at 1.00 a minute."""
    found = worked("pitted")
    assert found.teardown.taken_off == ("RB-20", "RB-30", "RB-40")
    renewed = [part for part, one in found.judgements.items() if one.verdict == "renew"]
    assert {"RB-20", "RB-30", "RB-40"} <= set(renewed)
    assert "RB-50" not in found.judgements
    assert [(one.code, one.pieces) for one in found.order.bought] == [("RB-30", 1)]
    down = next(line for line in found.price.lines if line.what == "Taking down")
    assert str(down.amount) == "6.00 CUR"
    assert found.judgements["RB-30"].reason == "Bearing: RB-20 Race is sold only with it; track: pitted."


def test_what_is_used_again_opens_no_more() -> None:
    found = worked("even")
    assert found.teardown.taken_off == ("RB-20",)
    assert not found.order.bought
