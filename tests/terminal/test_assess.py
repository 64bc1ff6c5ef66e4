import json
from pathlib import Path

import pytest

from engine.__main__ import main
from engine.assessing.runs import read_runs

ASSESS = ("assess", "--kb", "kb", "--sets", "4", "--workers", "1")


def test_the_table_has_a_row_for_each_run(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Kinds of set by ways of working; what is simulated stands above it."""
    assert main([*ASSESS, "--policy", "shipped", "chart"]) == 0
    out, err = capsys.readouterr()
    assert out.startswith("Simulated sets: faults drawn from the priors of the knowledge")
    rows = [line.split()[:6] for line in out.splitlines() if line.startswith("beacon")]
    assert rows == [
        ["beacon", "shipped", "right", "1", "full", "4"],
        ["beacon", "chart", "right", "1", "full", "4"],
    ]
    assert err.endswith("beacon chart right 1 full: 4 of 4 sets\n")


def test_figures_are_kept_and_a_run_made_again_takes_the_place_of_its_own(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The file holds seed, version of the knowledge and what is simulated; others stay in it."""
    assert main([*ASSESS, "beacon", "--out", "run.json"]) == 0
    assert main([*ASSESS, "beacon", "--policy", "any", "--out", "run.json"]) == 0
    first = Path("run.json").read_text(encoding="utf-8")
    assert main([*ASSESS, "beacon", "--out", "run.json"]) == 0
    assert Path("run.json").read_text(encoding="utf-8") == first
    kept = json.loads(first)
    assert kept["simulated"].startswith("Simulated sets")
    settings = [run["setting"] for run in read_runs(Path("run.json"))]
    assert [setting["policy"] for setting in settings] == ["any", "shipped"]
    assert {len(setting["version"]) for setting in settings} == {12}
    assert {setting["seed"] for setting in settings} == {1}


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (("becon",), "no family 'becon'. Did you mean 'beacon'?"),
        (("--sets", "0"), "--sets: found 0, expected 1 or more"),
        (
            ("--out", "kb/sources.yaml"),
            "kb/sources.yaml: found no results file, expected one written by 'dryjoint assess'\n"
            "  Name another file with --out.",
        ),
        (
            ("--out", "old.json"),
            "old.json: found format 0, expected 1\n  Run the assessment again.",
        ),
    ],
    ids=["slip", "no sets", "another file", "another format"],
)
def test_what_cannot_be_done_is_told(
    bench: Path, capsys: pytest.CaptureFixture[str], words: tuple[str, ...], message: str
) -> None:
    """The code is 2; a file that is there stays as it is."""
    Path("old.json").write_text('{"format": 0}', encoding="utf-8")
    before = Path("kb/sources.yaml").read_bytes()
    assert main([*ASSESS, *words]) == 2
    assert capsys.readouterr().err.endswith(f"dryjoint: {message}\n")
    assert Path("kb/sources.yaml").read_bytes() == before


def test_more_faults_than_the_priors_give_is_told(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Three things wrong at once are too rare in the tiny set."""
    assert main([*ASSESS, "--faults", "3"]) == 1
    assert capsys.readouterr().err.endswith(
        "beacon: found no set with 3 causes in 20000 draws from the priors\n"
        "  Ask for fewer faults at once.\n"
    )
