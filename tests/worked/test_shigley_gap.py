"""Shigley's Mechanical Engineering Design (R. G. Budynas, J. K. Nisbett), example 1-7: a gap, told as a unit book.

9th and 10th edition. 1.750 ± 0.003 less 0.750 ± 0.001, 0.120 ± 0.005 and 0.875 ± 0.001 in.
"""

import pytest

from layshaft.book import load_book
from layshaft.book.sheet import load_job, load_shop
from layshaft.plan.measured import Measured
from layshaft.plan.result import results
from tests.plan.gap_box import JOB, SHOP
from tests.worked.check import Check

BOOK = """\
layshaft book: 1
id: gap-box
name: Channel with three blocks
maker: Tarnwick Gear Works
invented: true
revision: 1
dated: 2026-10-01
base: CH-01
starts: level
attitudes: [level]
axes: {main: {start: left, end: right}}
variants: {plain: {}}
parts:
  CH-01: {name: Channel, class: case, mass: 1 kg, faces: {left: 0 in, right: 1.750 ± 0.003 in}}
  CH-02:
    {name: Block, class: block, mass: 1 kg, faces: {left: 0 in, right: 0.750 ± 0.001 in},
     ways: [{toward: left, time: 1 min}]}
  CH-03:
    {name: Shim, class: shim, mass: 1 kg, faces: {left: 0 in, right: 0.120 ± 0.005 in},
     ways: [{toward: left, time: 1 min}]}
  CH-04:
    {name: Spacer, class: block, mass: 1 kg, faces: {left: 0 in, right: 0.875 ± 0.001 in},
     ways: [{toward: left, time: 1 min}]}
results:
  gap:
    about: What is left in the channel
    chain: [plus CH-01 left to right, less CH-02 left to right, less CH-03 left to right, less CH-04 left to right]
"""
UNIT = load_book(BOOK, "channel.yaml").unit("plain")
GAP = results(UNIT, Measured(UNIT, load_job(JOB, "job").content, load_shop(SHOP, "shop").content))["gap"]
INCH = 0.0254

CHECKS = [
    Check("mean gap, in", lambda: float(GAP.value) / INCH, 0.005, 1e-12),
    Check("smallest gap, in", lambda: float(GAP.low) / INCH, -0.005, 1e-12),
    Check("largest gap, in", lambda: float(GAP.high) / INCH, 0.015, 1e-12),
    Check("root sum square, in", lambda: GAP.rss / INCH, 0.006, 1e-12),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()
