"""A process of its own that serves the demo shop, forked afresh for each line it is sent; forks are killed."""

from __future__ import annotations

import logging
import os
import socket
import sys
from pathlib import Path

from waitress import create_server

from layshaft.web.serve import prepare

BOOKS = Path(__file__).parents[2] / "books"


def main(folder: Path) -> None:
    """Say the port, then for each line on standard input the process id of a fork that serves there from now on."""
    logging.getLogger("waitress.queue").setLevel(logging.ERROR)
    prepare(folder)
    from django.core.wsgi import get_wsgi_application

    application = get_wsgi_application()
    make_shop()
    with socket.create_server(("127.0.0.1", 0)) as door:
        tell(door.getsockname()[1])
        for _ in sys.stdin:
            child = os.fork()
            if child == 0:
                create_server(application, sockets=[door], threads=4).run()
            tell(child)
            os.waitpid(child, 0)


def tell(number: int) -> None:
    """Say a number to whoever started this."""
    sys.stdout.write(f"{number}\n")
    sys.stdout.flush()


def make_shop() -> None:
    """The demo shop, and what every fork would read first read already, so that a short life is spent on writing."""
    from django.db import connections
    from django.test import Client

    from layshaft.shop.ledger.demo import load_demo
    from layshaft.shop.ledger.desk import book_of
    from layshaft.shop.ledger.models import BookRevision

    load_demo(BOOKS)
    Client().get("/who")
    for row in BookRevision.objects.all():
        book_of(row)
    connections.close_all()  # a fork opens its own


if __name__ == "__main__":
    main(Path(sys.argv[1]))
