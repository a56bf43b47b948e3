"""Mechanics loads without the heavy libraries, which come only when an array or a linear programme asks."""

import subprocess
import sys

from tests.house.tree import ROOT

HEAVY = ("numpy", "scipy")


def run(code: str) -> str:
    """What the code prints in a fresh interpreter."""
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT / "src", capture_output=True, text=True, check=True)
    return done.stdout.strip()


def test_no_module_loads_numpy():
    found = run(
        "import importlib, pkgutil, sys, layshaft.mechanics as room\n"
        "for module in pkgutil.iter_modules(room.__path__):\n"
        "    importlib.import_module(f'layshaft.mechanics.{module.name}')\n"
        f"print([name for name in {HEAVY} if name in sys.modules])"
    )
    assert found == "[]"


def test_a_single_figure_needs_no_numpy():
    found = run(
        "import sys\n"
        "from layshaft.mechanics import oneway, release, spring\n"
        "spring.force(65e3, 0.132, 0.076), release.speed_bound(104.0, 3.9), oneway.strut_angle(.048, .006, .0355)\n"
        "print('numpy' in sys.modules)"
    )
    assert found == "False"
