"""Photos: known by content, bounded, without where they were taken; shown of their own job alone."""

from __future__ import annotations

import io
import zlib
from collections.abc import Callable
from pathlib import Path
from struct import pack
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.http import HttpResponse
from django.test import Client
from PIL import Image

from layshaft.shop.ledger.models import Job, Photo
from layshaft.shop.ledger.photo import photo_path
from tests.shop.ledger.shop import NUMBER
from tests.web.test_bench import new_job

AtScreen = Callable[[str], Client]
GPS, ORIENTATION = 0x8825, 0x0112


@pytest.fixture(autouse=True)
def photos(settings: Any, tmp_path: Path) -> Path:
    settings.PHOTOS = tmp_path
    return tmp_path


def drawn(kind: str = "JPEG", size: tuple[int, int] = (800, 600), **more: Any) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", size, (140, 60, 20)).save(out, kind, **more)
    return out.getvalue()


def send(client: Client, content: bytes, number: str = NUMBER, **more: str) -> HttpResponse:
    return client.post(f"/jobs/{number}/photos/add", {"photo": SimpleUploadedFile("a.jpg", content), **more})


def test_a_photo_is_kept_without_where_it_was_taken_and_the_right_way_up(job: Job, at_screen: AtScreen) -> None:
    exif = Image.Exif()
    exif[ORIENTATION] = 6
    exif.get_ifd(GPS)[1] = "N"
    exif.get_ifd(GPS)[2] = (51.0, 30.0, 12.0)
    sent = drawn(exif=exif, comment=b"51.5 north")
    assert Image.open(io.BytesIO(sent)).getexif().get_ifd(GPS)
    assert send(at_screen("quill"), sent, part="OT-043", words="as it lay").status_code == 302
    row = Photo.objects.get(job=job)
    assert (row.part, row.words, row.width, row.height) == ("OT-043", "as it lay", 600, 800)
    kept = photo_path(row.digest, "whole").read_bytes()
    picture = Image.open(io.BytesIO(kept))
    assert not dict(picture.getexif())
    assert b"51.5 north" not in kept
    assert max(Image.open(io.BytesIO(photo_path(row.digest, "small").read_bytes())).size) == 360


@pytest.mark.parametrize("kind", ["PNG", "WEBP"])
def test_other_kinds_of_picture_are_drawn_anew(job: Job, at_screen: AtScreen, kind: str) -> None:
    client = at_screen("orrin")
    assert send(client, drawn(kind)).status_code == 302
    row = Photo.objects.get(job=job)
    answer = client.get(f"/jobs/{NUMBER}/photos/{row.digest}/whole")
    assert answer["Content-Type"] == "image/jpeg"
    assert answer["X-Content-Type-Options"] == "nosniff"
    assert answer.content[:2] == b"\xff\xd8"


def test_the_same_photo_twice_is_one(job: Job, at_screen: AtScreen) -> None:
    for _ in range(2):
        assert send(at_screen("quill"), drawn(), then="bench")["Location"] == f"/jobs/{NUMBER}/bench"
    assert Photo.objects.filter(job=job).count() == 1


def huge() -> bytes:
    """A small file that says it is a picture of 30,000 by 30,000 points (PNG specification, IHDR chunk)."""
    head = pack(">IIBBBBB", 30_000, 30_000, 8, 2, 0, 0, 0)
    chunks = [(b"IHDR", head), (b"IDAT", zlib.compress(b"\0" * 100)), (b"IEND", b"")]
    told = (pack(">I", len(body)) + name + body + pack(">I", zlib.crc32(name + body)) for name, body in chunks)
    return b"\x89PNG\r\n\x1a\n" + b"".join(told)


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"", "no photo that can be read"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>", "no photo that can be read"),
        (b"<?php ?>" + drawn()[8:], "no photo that can be read"),
        (drawn()[:900], "no photo that can be read"),
        (drawn("GIF"), "no photo that can be read"),
        (drawn("TIFF"), "no photo that can be read"),
        (drawn("PNG", (9000, 6000)), "more than 50 million points"),
        (huge(), "more than 50 million points"),
        (b"\xff\xd8" + b"x" * 20_000_000, "at most 20000000"),
    ],
)
def test_a_hostile_file_is_refused_and_nothing_lies_on_disk(
    job: Job, at_screen: AtScreen, photos: Path, content: bytes, told: str
) -> None:
    answer = send(at_screen("quill"), content)
    assert answer.status_code == 409
    assert told in answer.content.decode()
    assert not list(photos.iterdir())
    assert not Photo.objects.exists()


def test_what_is_not_of_this_job_is_not_shown(job: Job, at_screen: AtScreen) -> None:
    client = at_screen("quill")
    other = new_job("layline", "iron")
    send(client, drawn(), other.number)
    digest = Photo.objects.get(job=other).digest
    assert client.get(f"/jobs/{other.number}/photos/{digest}/small").status_code == 200
    assert client.get(f"/jobs/{NUMBER}/photos/{digest}/small").status_code == 404
    assert client.get(f"/jobs/{other.number}/photos/{digest}/huge").status_code == 404
    assert client.get(f"/jobs/{other.number}/photos/..%2f..%2fsecret-key/small").status_code == 404
    assert send(client, drawn(), part="OT-999").status_code == 409
    assert client.post(f"/jobs/{NUMBER}/photos/add", {"photo": "text"}).status_code == 409
    page = client.get(f"/jobs/{NUMBER}/photos").content.decode()
    assert "Where a photo was taken is not kept" in page
