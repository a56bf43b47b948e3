"""Starting the shop: the data folder made ready, the demo offered or the owner's link printed, pages served."""

from __future__ import annotations

import logging
import os
import socket
import sys
from contextlib import suppress
from pathlib import Path

import django
import segno
from waitress import create_server

LARGEST = 32 * 2**20
"""Bytes that anyone may send at once: a photo, with room for the rest of its form."""


def start(folder: Path, port: int, *, is_lan: bool, books: Path, has_demo: bool) -> None:
    """Serve a shop from its data folder until it is stopped."""
    prepare(folder)
    from layshaft.shop.ledger.demo import PIN, load_demo
    from layshaft.shop.ledger.models import Person
    from layshaft.shop.ledger.stock import add_book
    from layshaft.web.who import first_token

    if has_demo and not Person.objects.exists():
        print("Making the demo shop; all in it is invented.", flush=True)
        load_demo(books)
    from django.core.wsgi import get_wsgi_application

    logging.getLogger("waitress.queue").setLevel(logging.ERROR)  # that someone waits for a moment is no news
    # Served before it is told: who opens the address at once finds the shop there.
    host = "0.0.0.0" if is_lan else "127.0.0.1"
    try:
        server = create_server(
            get_wsgi_application(), host=host, port=port, threads=8, ident=None, max_request_body_size=LARGEST
        )
    except OSError as error:
        raise SystemExit(f"Port {port} is not to be had ({error.strerror}): name another one with --port.") from None
    port = server.effective_port
    here = f"http://localhost:{port}/"
    if not Person.objects.exists():
        for book in sorted(books.glob("*/book.yaml")):
            add_book(book.read_bytes(), None)
        print("This shop has no owner yet. Whoever opens this link first becomes the owner:", flush=True)
        print(f"  {here}first/{first_token()}", flush=True)
    else:
        told = f" Everyone's PIN in the demo shop is {PIN}." if has_demo else ""
        print(f"The shop is open at {here}{told}", flush=True)
    if is_lan:
        tell_lan(f"http://{lan_address()}:{port}/")
    server.run()


def prepare(folder: Path) -> None:
    """The data folder with its database as this version wants it."""
    os.environ["LAYSHAFT_SHOP"] = str(folder)
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "layshaft.web.settings")
    folder.mkdir(parents=True, exist_ok=True)
    django.setup()
    from django.core.management import call_command

    call_command("migrate", verbosity=0, interactive=False)


def tell_lan(address: str) -> None:
    """The address that tablets in the same network open, and the same for a camera to read."""
    print(f"From a tablet in the same network: {address}", flush=True)
    # A terminal that writes no such signs gets the address alone.
    with suppress(UnicodeEncodeError):
        segno.make(address, error="m").terminal(out=sys.stdout, compact=True)
    sys.stdout.flush()


def lan_address() -> str:
    """The address of this machine in its own network; nothing is sent."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))
            return str(probe.getsockname()[0])
        except OSError:
            return "127.0.0.1"
