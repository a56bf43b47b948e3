"""`python -m layshaft.web`: what start.py runs to open the shop."""

from __future__ import annotations

import argparse
from pathlib import Path

from layshaft.web.serve import start

parser = argparse.ArgumentParser("layshaft.web", description="Open the shop in a browser, until Ctrl-C.")
parser.add_argument("--data", type=Path, required=True, help="the folder that the shop's record lies in")
parser.add_argument("--books", type=Path, required=True, help="the folder of the unit books that come with the tool")
parser.add_argument("--port", type=int, default=8000, help="where it is served; 8000 if not said")
parser.add_argument("--lan", action="store_true", help="answer tablets in the same network, too")
parser.add_argument("--demo", action="store_true", help="fill an empty shop with invented people and jobs")

if __name__ == "__main__":
    given = parser.parse_args()
    try:
        start(given.data, given.port, is_lan=given.lan, books=given.books, has_demo=given.demo)
    except KeyboardInterrupt:
        raise SystemExit(130) from None
