"""`dryjoint align`: the set-up sheet of a kind of set, whole, or after a repair."""

import json
from pathlib import Path

import pytest

from engine.__main__ import main

CASE = """\
format: 1
family: three-crystal-fm
kit: {instruments: [frequency-counter, dummy-load], lid: off}
findings:
  - {check: reference-oscillator.ref-error, answer: "10.24030 MHz"}
repairs:
  - {cause: loop-crystal-oscillator.loop-trimmer-set, how: adjusted, after: 1}
"""


def aligned(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    """Return what `dryjoint align` prints."""
    assert main(["align", *words]) == 0
    return capsys.readouterr().out


def test_cautions_come_before_the_first_step(capsys: pytest.CaptureFixture[str]) -> None:
    """Every caution of a step stands at the head of the sheet, and by name before the step."""
    told = aligned(capsys, "three-crystal-fm")
    head, steps = told.split("\nSupply and rails\n", 1)
    for block in steps.split("\n\n"):
        lines = block.splitlines()
        if lines[0].partition(".")[0].isdigit():
            assert lines[1].startswith("  ! "), block
    assert "  ! Dummy load before keying: Connect a 50 ohm dummy load" in head


def test_a_step_says_where_with_what_and_how_far(capsys: pytest.CaptureFixture[str]) -> None:
    """The wanted value comes from the plan, its reason from the repair, what it moves follows."""
    told = aligned(capsys, "three-crystal-fm", "--after", "regulators.rail-preset")
    assert "Only what is needed after: Preset of the regulated rail mis-set" in told
    assert (
        "3. Loop crystal trimmer (loop-crystal-oscillator.loop-trimmer-set)\n"
        "  ! Cores break; Who may adjust a transmitter; One slip shorts\n"
        "  Why: moved by what was done at: Preset of the regulated rail, where there is one\n"
        "  After: 1 (Preset of the regulated rail, where there is one)\n"
        "  Mode: receive\n"
        "  With: Frequency counter, timebase 5 ppm or better\n"
    ) in told
    assert (
        "  Wanted: 15.996250 MHz ± 3 ppm\n"
        "  Turn: Insulated tool, hand away before each reading. At the end of its travel the "
        "crystal has\n"
        "    aged, do not bend it.\n"
        "  Moves: 5 (Trimmer of the transmit crystal)\n"
        "  Source: common practice\n"
    ) in told


def test_the_chosen_rules_bound_what_is_wanted(capsys: pytest.CaptureFixture[str]) -> None:
    """2.5 kHz of deviation were allowed in 1981, 2 kHz later: both ends come down with it.

    Limits: MPT 1320 and MPT 1382 as told in a guide to the latter, second-hand.
    """
    found = {}
    for rules in ("uk-1981", "uk-1997"):
        told = aligned(capsys, "three-crystal-fm", "--rules", rules, "--json")
        steps = {step["adjustment"]: step for step in json.loads(told)["steps"]}
        (wanted,) = steps["deviation-limiter.deviation-preset"]["wanted"]
        found[rules] = tuple(wanted[key] for key in ("said", "aim", "low", "high"))
    words = "2.5 kHz ± 15 %, never above"
    assert found == {
        "uk-1981": (f"{words} 2.5 kHz (deviation of uk-1981)", 2.5, 2.125, 2.5),
        "uk-1997": (f"{words} 2 kHz (deviation of uk-1997)", 2.0, 1.625, 2.0),
    }


def test_a_case_file_brings_kit_and_repairs(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Only what hangs on what was put right; instruments that are not there are named."""
    path = tmp_path / "case.yaml"
    path.write_text(CASE, encoding="utf-8")
    data = json.loads(aligned(capsys, str(path), "--json"))
    assert data["after"] == ["loop-crystal-oscillator.loop-trimmer-set"]
    assert [(s["adjustment"], s["reason"]["kind"], s["missing"]) for s in data["steps"]] == [
        ("loop-crystal-oscillator.loop-trimmer-set", "itself", []),
        ("transmit-crystal-oscillator.tx-trimmer", "moved", []),
    ]
    assert data["steps"][1]["wanted"][0]["right_mhz"] == 27.79125
    everything = json.loads(aligned(capsys, str(path), "--json", "--all"))
    assert everything["after"] is None
    assert len(everything["steps"]) > 30


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (
            ("three-crystal-fn",),
            "no set and no file 'three-crystal-fn'. Did you mean 'three-crystal-fm'?",
        ),
        (
            ("three-crystal-fm", "--after", "vco.vco-cor"),
            "after: found 'vco.vco-cor', expected a cause of this set\n"
            "  Did you mean 'vco.vco-core'?",
        ),
        (
            ("three-crystal-fm", "--rules", "us"),
            "rules: found 'us', expected one of uk-1981, uk-1997\n  Known: uk-1981, uk-1997.",
        ),
        (
            ("three-crystal-fm", "--kit", "multimetre"),
            "no instrument 'multimetre'. Did you mean 'multimeter'?",
        ),
        (
            ("three-crystal-fm", "--all", "--after", "vco.vco-core"),
            "--all and --after ask for two sheets; take one of them",
        ),
    ],
    ids=["name", "cause", "rules", "kit", "all and after"],
)
def test_what_is_not_there_is_refused(
    words: tuple[str, ...], message: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """With what was likely meant."""
    assert main(["align", *words]) == 2
    assert capsys.readouterr().err == f"dryjoint: {message}\n"


def test_knowledge_without_settings_is_told(kb: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A sheet cannot be made of nothing."""
    assert main(["align", "beacon", "--kb", str(kb)]) == 2
    assert capsys.readouterr().err == "dryjoint: nothing says how beacon is set up\n"
