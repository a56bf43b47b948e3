"""Photos of a job: what a camera sent is read as a picture, drawn anew without where it was taken, and kept by digest.

A file that only calls itself a picture is refused by its content. Nothing of what was sent is kept but the pixels.
"""

from __future__ import annotations

import os
import struct
from hashlib import sha256
from io import BytesIO
from pathlib import Path
from typing import Literal
from uuid import uuid4

from django.conf import settings
from django.db import transaction
from django.utils import timezone
from PIL import Image, ImageOps

from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.models import Job, Person, Photo
from layshaft.shop.ledger.right import may

LARGEST = 20_000_000
"""Bytes that a picture may have when it is sent."""
MOST_PIXELS = 50_000_000
"""What a picture may have before it is read: a small file can claim to be a huge picture."""
MOST_OF_A_JOB = 500
"""Pictures a job."""
KINDS = ("JPEG", "PNG", "WEBP")
SIDES = {"whole": 2400, "small": 360}
"""The longer side of each kept size, in pixels, at most."""
Size = Literal["whole", "small"]
_BROKEN = (OSError, SyntaxError, ValueError, EOFError, struct.error)


def keep_photo(job: Job, sent: bytes, by: Person, *, part: str = "", words: str = "") -> Photo:
    """Keep a picture of a job; the same one again is the row that is there."""
    if not may(by.role, "take a photo"):
        raise Refused("no right", f"To take a photo is not for {by.role}s. Ask someone who may.")
    picture = _read(sent)
    files = {size: _drawn(picture, side) for size, side in SIDES.items()}
    digest = sha256(files["whole"]).hexdigest()
    known = job.photos.filter(digest=digest, part=part).first()
    if known is not None:
        return known
    if job.photos.count() >= MOST_OF_A_JOB:
        raise Refused("many", f"This job has {MOST_OF_A_JOB} photos, which is as many as one can have.")
    for size, content in files.items():
        _put(photo_path(digest, size), content)
    width, height = Image.open(BytesIO(files["whole"])).size
    with transaction.atomic():
        return Photo.objects.create(
            job=job,
            digest=digest,
            part=part[:80],
            words=words[:300],
            width=width,
            height=height,
            at=timezone.now(),
            by=by,
        )


def photo_path(digest: str, size: Size) -> Path:
    """Where a picture lies: beside the database, under its own digest."""
    return Path(settings.PHOTOS) / digest[:2] / f"{digest}-{size}.jpg"


def _read(sent: bytes) -> Image.Image:
    if len(sent) > LARGEST:
        raise Refused("large", f"The photo has {len(sent)} bytes; at most {LARGEST} are taken. Send a smaller one.")
    try:
        picture = Image.open(BytesIO(sent), formats=KINDS)
        if picture.width * picture.height > MOST_PIXELS:
            raise Image.DecompressionBombError
        picture.load()
        return ImageOps.exif_transpose(picture).convert("RGB")
    except Image.DecompressionBombError:
        told = f"The photo has more than {MOST_PIXELS // 1_000_000} million points: send a smaller one."
        raise Refused("pixels", told) from None
    except _BROKEN:
        raise Refused("no photo", "This is no photo that can be read: send a JPEG, PNG or WebP file.") from None


def _drawn(picture: Image.Image, side: int) -> bytes:
    """The pixels alone, as a file of their own."""
    smaller = picture.copy()
    smaller.thumbnail((side, side))
    bare = Image.new("RGB", smaller.size)
    bare.paste(smaller)
    out = BytesIO()
    bare.save(out, "JPEG", quality=85, optimize=True)
    return out.getvalue()


def _put(path: Path, content: bytes) -> None:
    """Written through before it takes its name, so that a name never stands for half a picture."""
    if path.exists():
        return
    path.parent.mkdir(parents=True, exist_ok=True)
    draft = path.with_name(f"{path.name}.{uuid4().hex}")
    with draft.open("wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())
    draft.replace(path)
