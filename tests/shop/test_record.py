"""Names of files that are made from an id, and files that are written together."""

from pathlib import Path

import pytest

from layshaft.shop.record import name_for, write_together

USUAL = ["KL-7", "kl 7", "KL/7", "KL%2F7", "..", "../KL", "a\nb", "\\KL", "KL:7", "ü"]
IDS = [*USUAL, "µ" * 80, "😀" * 80, "😀" * 79 + "x", "漢" * 80]


def test_ids_give_names_that_differ_and_stay_in_the_folder(tmp_path: Path) -> None:
    names = [f"build-sheet-{name_for(id)}.json" for id in IDS]
    assert len(set(names)) == len(IDS)
    for name in names:
        assert Path(name).name == name
        write_together(tmp_path, {name: b"{}"})
    assert {path.name for path in tmp_path.iterdir()} == set(names)


@pytest.mark.parametrize("id", ["KL-2611-07", "KL_7 (2)", "Ärger+1.b"])
def test_usual_ids_stay_as_they_are(id: str) -> None:
    assert name_for(id) == id
