"""A book's train as a network: signs, standing ratios, and what it is checked for."""

from fractions import Fraction

import pytest

from layshaft.book import check_book
from layshaft.book.definition import Train
from layshaft.book.turning import network, standing_ratio
from layshaft.mechanics import speed
from tests.stories.story import example

PLAIN = {"sun": {"shaft": "s", "teeth": 36}, "ring": {"shaft": "r", "teeth": 84}, "carrier": "c",
         "planet": {"teeth": 24, "count": 4}}


def train(**told):
    return Train.model_validate({"input": "a", "output": "b", "shafts": ["a", "b", "c", "s", "r"], **told})


def output(built, closed=(), **given):
    return speed.solve_speeds(built, closed, {shaft: Fraction(value) for shaft, value in given.items()})


def test_plain_set():
    # Willis: with the carrier held the ring turns -S/R as fast as the sun.
    gearset = train(planetaries={"p": PLAIN}).planetaries["p"]
    assert standing_ratio(gearset) == Fraction(-84, 36)


def test_compound_planet():
    # Sun 30 on the planet's 20, ring 90 on its 16: sun to planet -30/20, planet to ring 16/90.
    compound = {**PLAIN, "sun": {"shaft": "s", "teeth": 30}, "ring": {"shaft": "r", "teeth": 90},
                "planet": {"teeth": 20, "second teeth": 16, "count": 3}, "ring on": "second"}
    assert standing_ratio(train(planetaries={"p": compound}).planetaries["p"]) == Fraction(-15, 4)


@pytest.mark.parametrize("told, turns", [
    ({}, Fraction(-20, 40)),
    ({"internal": True}, Fraction(20, 40)),
    ({"idlers": 1}, Fraction(20, 40)),
    ({"idlers": 2}, Fraction(-20, 40)),
    ({"idlers": 1, "internal": True}, Fraction(-20, 40)),
])
def test_mesh(told, turns):
    mesh = {"a": {"shaft": "a", "teeth": 20}, "b": {"shaft": "b", "teeth": 40}, **told}
    assert output(network(train(meshes={"m": mesh})), a=1)["b"] == turns


def test_chain_turns_the_same_way():
    chain = {"a": {"shaft": "a", "teeth": 20}, "b": {"shaft": "b", "teeth": 40}}
    assert output(network(train(chains={"c": chain})), a=1)["b"] == Fraction(1, 2)


def test_couplings_to_the_case_and_between_shafts():
    built = network(train(planetaries={"p": PLAIN}, couplings={
        "brake": {"kind": "brake", "between": ["case", "s"]}, "clutch": {"kind": "clutch", "between": ["s", "c"]},
    }))
    assert output(built, ["brake"], c=7)["r"] == 10
    assert output(built, ["clutch"], c=7)["r"] == 7


def test_a_set_without_its_ring_gives_no_network():
    assert network(train(planetaries={"p": {**PLAIN, "ring": None}})) is None


@pytest.mark.parametrize("planet, fits", [
    # Compound set, signed teeth (sun 30 on 20, ring 90 on 16): places = |30 x 16 + 90 x 20| / gcd(20, 16) = 570.
    ("{teeth: 20, second teeth: 16, count: 3}", True),
    ("{teeth: 20, second teeth: 16, count: 5}", True),
    ("{teeth: 20, second teeth: 16, count: 4}", False),
])
def test_compound_planets_at_equal_angles(planet, fits):
    gears = f"""train:
  input: c
  output: r
  shafts: [c, r, s]
  planetaries:
    set:
      sun: {{shaft: s, teeth: 30}}
      ring: {{shaft: r, teeth: 90}}
      ring on: second
      carrier: c
      planet: {planet}
"""
    text = example().replace("kits:\n", f"{gears}kits:\n").replace("SH-60: shaft, SH-70: hub", "SH-60: r, SH-70: c")
    assert [one.id for one in check_book(text, "b").found] == ([] if fits else ["planets cannot be spaced"])
