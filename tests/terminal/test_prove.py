"""`dryjoint prove`: the sheet of a kind of set, and what a file with readings proves."""

import json
from pathlib import Path

import pytest

from engine.__main__ import main

FILE = """\
format: 1
family: three-crystal-fm
title: Set 7 of the cooperative, invented
instruments: {frequency-counter: 2 ppm + 10 Hz, rf-power-meter: 5 % of 10 W}
readings:
  - {point: carrier-frequency@1, reads: 27.60132 MHz, before: 27.604 MHz}
  - {point: carrier-power, reads: 3.1 W, before: 1.2 W}
"""
WRONG = """\
format: 1
family: three-crystal-fm
rules: us
instruments: {rf-power-meter: 5 ppm}
readings:
  - {point: carier-power, reads: 3 W}
  - {point: carrier-power, reads: 3 W}
  - {point: carrier-frequency@1, reads: "27.6"}
  - {point: squelch, reads: perhaps}
"""

TOLD = """\
FILE:3: rules: found 'us', rules for other channels, expected one of uk-1981, uk-1997
  A set is held to the rules its channels were made for; it cannot be judged here.
FILE:4: instruments.rf-power-meter: found 5 ppm for what reads W, expected a size with its unit
  Write it as '5 %', '2 ppm', '1 dB', '5 % + 0.1 W' or '5 % of 10 W'.
FILE:6: readings.0.point: found 'carier-power', expected a point of this proof
  Did you mean 'carrier-power'?
FILE:8: readings.2.reads: found an error of +27.6 kHz, expected an error in kHz
  Write '27.6 MHz' if that is what the counter shows.
FILE:9: readings.3.point: found 'squelch', expected a point of this proof
  Did you mean 'squelch-range'?
"""


def proved(capsys: pytest.CaptureFixture[str], *words: str, code: int) -> str:
    """Return what `dryjoint prove` prints."""
    assert main(["prove", *words]) == code
    return capsys.readouterr().out


def test_a_set_that_was_hardly_measured_is_not_called_right(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """What is missing is told first, then before and after, then what the figures rest on."""
    (tmp_path / "seven.yaml").write_text(FILE, encoding="utf-8")
    told = proved(capsys, str(tmp_path / "seven.yaml"), code=1)
    assert told.startswith(
        "Set 7 of the cooperative, invented\n"
        "Three-crystal FM set, UK 1981 channels\n"
        "Held to UK 27/81, sets of the first years (uk-1981): United Kingdom; 1981 on; sets placed "
        "on the market before 1997\n\n"
        "Not proved. The set may not be called right yet.\n"
        "  Not measured: Carrier frequency, channel 20\n"
    )
    assert "Carrier frequency @1                     27.604 MHz  27.60132 MHz  pass " in told
    assert "Not read in the document itself, look it up before it decides: frequency-error" in told


def test_every_mistake_of_a_file_is_told_at_once(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Each with its line, what was found, what was expected and what to do."""
    file = tmp_path / "wrong.yaml"
    file.write_text(WRONG, encoding="utf-8")
    assert main(["prove", str(file)]) == 1
    told = capsys.readouterr().err.replace(str(file), "FILE")
    assert told == TOLD


def test_a_file_as_records(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """For a script: every reading with its standard uncertainty and every figure held."""
    (tmp_path / "seven.yaml").write_text(FILE, encoding="utf-8")
    data = json.loads(proved(capsys, str(tmp_path / "seven.yaml"), "--json", code=1))
    power = next(each for each in data["points"] if each["point"] == "carrier-power")
    assert data["verdict"] == "not-shown"
    assert power["value"] == 3.1
    assert power["standard_uncertainty"] == pytest.approx(0.5 / 3.0**0.5)
    assert [(each["id"], each["verdict"]) for each in power["held"] if not each["guide"]] == [
        ("carrier-power", "within")
    ]
    assert "carrier-frequency@20" in data["missing"]


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (
            ("three-crystal-fm", "--rules", "us"),
            "dryjoint: rules: found 'us', rules for other channels, expected one of uk-1981, "
            "uk-1997\n",
        ),
        (
            ("three-crystal-fn",),
            "dryjoint: no set and no file 'three-crystal-fn'. Did you mean 'three-crystal-fm'?\n",
        ),
    ],
    ids=["rules", "name"],
)
def test_what_cannot_be_proved_is_refused(
    words: tuple[str, ...], message: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """A set is held to rules its channels were made for, and to no others."""
    assert main(["prove", *words]) == 2
    assert capsys.readouterr().err.startswith(message.rstrip("\n"))


def test_cautions_come_before_the_first_step(capsys: pytest.CaptureFixture[str]) -> None:
    """On the blank sheet, whatever the points are."""
    told = proved(capsys, "multi-crystal-sideband", code=0)
    assert told.index("! Dummy load before keying") < told.index("carrier-frequency@1")
