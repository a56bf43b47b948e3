"""What the start command tells: the address in the shop's own network, with a picture of it for a tablet's camera."""

from __future__ import annotations

import io

import pytest
import segno

from layshaft.web.serve import tell_lan

ADDRESS = "http://192.0.2.7:8000/"


def test_the_address_is_told_and_drawn(capsys: pytest.CaptureFixture[str]) -> None:
    tell_lan(ADDRESS)
    first, *drawn = capsys.readouterr().out.splitlines()
    assert first == f"From a tablet in the same network: {ADDRESS}"
    # ISO/IEC 18004: a symbol has 17 + 4 x version modules a side, and a quiet zone of 4 around it; two rows a line.
    side = 17 + 4 * int(segno.make(ADDRESS, error="m").version) + 8
    assert {len(line) for line in drawn} == {side}
    assert len(drawn) == (side + 1) // 2


def test_a_terminal_without_such_signs_gets_the_address_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    plain = io.TextIOWrapper(io.BytesIO(), encoding="ascii")
    monkeypatch.setattr("sys.stdout", plain)
    tell_lan(ADDRESS)
    plain.flush()
    assert plain.buffer.getvalue().decode().startswith(f"From a tablet in the same network: {ADDRESS}\n")
