"""Help teaches: its examples run as printed, and a shell completes what it names."""

from __future__ import annotations

import shlex
import subprocess
from pathlib import Path

import pytest

from layshaft.cli import main
from layshaft.cli.parser import CALLED, EXAMPLES
from tests.cli.call import ROOT

EVERY = [words for examples in EXAMPLES.values() for words in examples]


@pytest.mark.parametrize("words", EVERY)
def test_examples_run_as_printed(words: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "books").symlink_to(ROOT / "books")
    monkeypatch.chdir(tmp_path)
    assert main(shlex.split(words)) == 0


@pytest.mark.parametrize("name", EXAMPLES)
def test_each_command_shows_its_examples(
    name: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv(CALLED, "python3 ../start.py run")
    assert main([name, "--help"]) == 0
    shown = capsys.readouterr().out
    assert shown.startswith(f"usage: python3 ../start.py run {name} ")
    for words in EXAMPLES[name]:
        assert words.startswith(name)
        assert f"  python3 ../start.py run {words}\n" in shown


def test_a_name_that_argparse_would_fill_in_is_left_out(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv(CALLED, "python3 '%(prog)s %d/start.py' run")
    assert main(["rebuild", "--help"]) == 0
    assert capsys.readouterr().out.startswith("usage: layshaft rebuild ")


def test_help_shows_one_example_of_each_command(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--help"]) == 0
    shown = capsys.readouterr().out
    for examples in EXAMPLES.values():
        assert f"\n  layshaft {next(iter(examples))}\n" in shown


@pytest.fixture(scope="module")
def bash_script(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The script for bash, in a file."""
    path = tmp_path_factory.mktemp("completion") / "layshaft"
    with pytest.MonkeyPatch.context() as patch, path.open("w", encoding="utf-8") as script:
        patch.setattr("sys.stdout", script)
        assert main(["completion", "bash"]) == 0
    return path


@pytest.mark.needs_tool("bash")
@pytest.mark.parametrize(
    ("typed", "offered"),
    [
        (["te"], {"teardown"}),
        (["check", "books/demo/"], {"books/demo/job.yaml", "books/demo/shop.yaml"}),
        (["teardown", "twin"], {"twinpath"}),
        (["teardown", "overtop", "--variant", "OT"], {"OT4", "OT5", "OT6"}),
        (["assembly", "overtop", "--open", "OT-040", "--to", "OT-096"],
         {"OT-096"}),
        (["rebuild", "books/demo/job.yaml", "--out", "sr"], {"src"}),
        (["check", "x", "--sh"], {"--shop"}),
    ],
)
def test_bash_completes(bash_script: Path, typed: list[str], offered: set[str]) -> None:
    asked = (
        'source "$0"; COMP_WORDS=(layshaft "$@"); COMP_CWORD=$#; _shtab_layshaft 2>/dev/null; '
        'printf "%s\\n" "${COMPREPLY[@]}"'
    )
    done = subprocess.run(["bash", "-c", asked, str(bash_script), *typed], cwd=ROOT, capture_output=True, text=True)
    assert set(done.stdout.split()) == offered


def test_zsh_is_told_what_each_argument_takes(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["completion", "zsh"]) == 0
    script = capsys.readouterr().out
    assert '"*--to[only as far as this\\; repeatable]:PART:_layshaft_parts"' in script
    assert '":the job file:_files"' in script
    assert "compadd -- layline overtop twinpath;" in script
