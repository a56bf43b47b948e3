"""The server killed with -9 while readings are posted: nothing acknowledged is lost, nothing is doubled.

LAYSHAFT_KILLS says how often it is killed; a few dozen times if it does not.
"""

from __future__ import annotations

import http.client
import itertools
import json
import os
import random
import re
import signal
import sqlite3
import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import closing, suppress
from pathlib import Path
from typing import Any
from urllib.parse import urlencode
from uuid import UUID

import pytest

from tests.house.tree import ROOT

pytestmark = pytest.mark.skipif(os.name == "nt", reason="only on POSIX: the server is forked")

KILLS = int(os.environ.get("LAYSHAFT_KILLS", "30"))
HANDS = 2
PART, READING = "LL-020", "pocket bore"
LONGEST = 0.4
"""No server lives longer than this [s], which is some readings' time."""


class Forker:
    """The process that serves, fork after fork, on one port."""

    def __init__(self, folder: Path) -> None:
        """Start it, with a first fork that serves."""
        command = [sys.executable, "-m", "tests.web.forked", str(folder)]
        variables = {**os.environ, "PYTHONPATH": f"{ROOT / 'src'}{os.pathsep}{ROOT}"}
        self.process = subprocess.Popen(
            command, cwd=ROOT, env=variables, text=True, stdin=subprocess.PIPE, stdout=subprocess.PIPE
        )
        self.port = self._told()
        self.serving = self.serve()

    def _told(self) -> int:
        assert self.process.stdout
        return int(self.process.stdout.readline())

    def serve(self) -> int:
        """Have a fork serve, and say which process it is."""
        assert self.process.stdin
        self.process.stdin.write("serve\n")
        self.process.stdin.flush()
        return self._told()

    def kill(self) -> None:
        """Kill the fork that serves, and have another one."""
        os.kill(self.serving, signal.SIGKILL)
        self.serving = self.serve()

    def end(self) -> None:
        """Leave nothing running."""
        os.kill(self.serving, signal.SIGKILL)
        self.process.communicate()


class Hand:
    """Someone who posts forms, over connections that may break."""

    def __init__(self, port: int) -> None:
        """Nobody is signed in yet."""
        self.port = port
        self.cookies: dict[str, str] = {}

    def ask(self, method: str, address: str, form: dict[str, str] | None = None) -> http.client.HTTPResponse:
        """One request; the answer's headers are there, or the connection broke."""
        headers = {"Cookie": "; ".join(f"{name}={value}" for name, value in self.cookies.items())}
        headers["Content-Type"] = "application/x-www-form-urlencoded"
        sent = {"csrfmiddlewaretoken": self.cookies.get("csrftoken", ""), **(form or {})}
        with closing(http.client.HTTPConnection("127.0.0.1", self.port, timeout=30)) as line:
            line.request(method, address, urlencode(sent) if method == "POST" else None, headers)
            answer = line.getresponse()
            answer.read()
        for cookie in answer.headers.get_all("Set-Cookie") or ():
            name, value = cookie.split(";")[0].split("=", 1)
            self.cookies[name] = value
        return answer

    def sign_in(self) -> None:
        """The demo's rebuilder is at this screen."""
        self.ask("GET", "/who")
        assert self.ask("POST", "/who", {"name": "maddick", "pin": "2580"}).status == 302

    def take_in(self, book: int) -> str:
        """A unit taken in; where its job is."""
        form = {"unit": f"{book} iron", "customer": "M. Orrel", "key": str(UUID(int=1)), "seen": "0"}
        found = re.fullmatch(r"/jobs/.+/", self.ask("POST", "/jobs/new", form).headers["Location"])
        assert found
        return found.group()


def post(
    figures: Iterator[str], hand: Hand, address: str, chance: random.Random, stop: threading.Event
) -> Iterator[tuple[str, int]]:
    """Post readings one after the other, each until it is acknowledged: its figure, and how often it was sent."""
    for figure in figures:
        if stop.is_set():
            return
        form = {"reading": READING, "figure": figure, "key": str(UUID(int=chance.getrandbits(128))), "seen": "0"}
        sent, status = 0, 0
        while status != 302:
            sent += 1
            with suppress(ConnectionError, http.client.HTTPException):
                status = hand.ask("POST", address, form).status
                assert status == 302
        yield figure, sent


def test_nothing_acknowledged_is_lost_and_nothing_is_doubled(tmp_path: Path) -> None:
    forker, stop, acknowledged = Forker(tmp_path), threading.Event(), []
    figures = map("0.{:06d} mm".format, itertools.count(1))
    try:
        hand = Hand(forker.port)
        hand.sign_in()
        job = hand.take_in(book_of_layline(tmp_path))
        address = f"{job}parts/{PART}/reading"
        hands = [
            threading.Thread(
                target=lambda seed: acknowledged.extend(post(figures, hand, address, random.Random(seed), stop)),
                args=(seed,),
            )
            for seed in range(HANDS)
        ]
        for thread in hands:
            thread.start()
        chance, wait = random.Random(9), threading.Event()
        for _ in range(KILLS):
            wait.wait(chance.uniform(0, LONGEST))
            forker.kill()
        stop.set()
        for thread in hands:
            thread.join()
    finally:
        stop.set()
        forker.end()
    written = entries(tmp_path, job)
    assert [number for number, _ in written] == list(range(1, len(written) + 1))
    found = [body["figures"][0] for _, body in written if "figures" in body]
    assert sorted(found) == sorted(figure for figure, _ in acknowledged)
    assert sum(sent - 1 for _, sent in acknowledged) >= KILLS // 2, "the kills fell between the readings"


def rows(folder: Path, question: str, *given: str) -> list[Any]:
    """What the database that was left behind says, read without the framework."""
    with closing(sqlite3.connect(folder / "shop.sqlite3")) as database:
        return database.execute(question, given).fetchall()


def book_of_layline(folder: Path) -> int:
    """The row of the book of the unit that is taken in."""
    return int(rows(folder, "SELECT id FROM ledger_bookrevision WHERE book = 'layline'")[0][0])


def entries(folder: Path, job: str) -> list[tuple[int, dict[str, Any]]]:
    """A job's entries in order; its own row has counted them."""
    number = job.split("/")[2]
    of_job = "FROM ledger_entry JOIN ledger_job ON ledger_job.id = job_id WHERE ledger_job.number = ?"
    found = rows(folder, f"SELECT ledger_entry.number, body {of_job} ORDER BY 1", number)
    assert rows(folder, "SELECT entries FROM ledger_job WHERE number = ?", number) == [(len(found),)]
    return [(at, json.loads(body)) for at, body in found]
