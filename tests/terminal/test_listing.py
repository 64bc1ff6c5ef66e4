import json
from pathlib import Path

import pytest

from engine.__main__ import main
from engine.terminal.entries import KINDS

CHECKS = """\
id                           kind      minutes  lid  mode      answer              title
past.fell                    question      1.0  on   any       yes/no              The set has fallen
sender.weak                  symptom       2.0  on   any       loud/faint/nothing  Others hear the set weakly
sender.power                 reading       3.0  on   transmit  W                   Power into the dummy load
sender.transistor-junctions  look          6.0  off  off       yes/no              Junctions of the output transistor
supply.dark                  symptom       1.0  on   any       yes/no              No lamp lights
supply.rail-volts            reading       3.0  off  receive   V                   Volts on the rail
"""  # noqa: E501


def listed(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    """Return what `dryjoint list` prints."""
    assert main(["list", *words, "--kb", "kb"]) == 0
    return capsys.readouterr().out


def test_a_table_is_aligned(kb: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Words to the left, numbers to the right."""
    assert listed(capsys, "checks") == CHECKS


@pytest.mark.parametrize("kind", KINDS)
def test_each_kind_has_a_table_and_json(
    kind: str, kb: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Both show the same ids in the same order."""
    entries = json.loads(listed(capsys, kind, "--json"))
    lines = listed(capsys, kind).splitlines()[1:]
    assert [line.split()[0] for line in lines] == [entry["id"] for entry in entries]
    assert entries


def test_json_has_what_a_case_needs(kb: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A reading has unit and span, another check its outcomes by id."""
    entries = {entry["id"]: entry for entry in json.loads(listed(capsys, "checks", "--json"))}
    power = entries["sender.power"]
    assert (power["unit"], power["span"], power["outcomes"]) == ("W", [0, 10], {})
    assert (power["needs"], power["lid"]) == (["power-meter", "dummy-load"], "on")
    assert (power["mode"], power["minutes"]) == ("transmit", 3)
    assert list(entries["sender.weak"]["outcomes"]) == ["loud", "faint", "nothing"]
    assert list(entries["supply.dark"]["outcomes"]) == ["yes", "no"]


def test_json_is_enough_to_write_a_case(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A script that knows nothing else answers every check, and the case is ranked."""
    (family,) = json.loads(listed(capsys, "families", "--json"))
    instruments = json.loads(listed(capsys, "instruments", "--json"))
    findings = []
    for check in json.loads(listed(capsys, "checks", "--family", family["id"], "--json")):
        low, high = check["span"] or (None, None)
        answer = next(iter(check["outcomes"]), None) or f"{(low + high) / 2:g} {check['unit']}"
        findings.append({"check": check["id"], "answer": answer})
    kit = {"instruments": [one["id"] for one in instruments], "lid": "off"}
    case = {"format": 1, "family": family["id"], "kit": kit, "findings": findings}
    Path("case.json").write_text(json.dumps(case), encoding="utf-8")
    assert main(["rank", "case.json", "--json", "--kb", "kb"]) == 0
    ranked = json.loads(capsys.readouterr().out)
    assert ranked["checks"] == []
    known = {cause["id"] for cause in json.loads(listed(capsys, "causes", "--json"))}
    assert {cause["id"] for cause in ranked["causes"]} == known


def test_symptoms_are_the_checks_an_owner_notices(
    kb: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """They are listed by the question put to the owner."""
    assert listed(capsys, "symptoms") == (
        "id           asks\n"
        "sender.weak  Do others hear you weakly?\n"
        "supply.dark  Is the set dark and silent?\n"
    )


def test_a_family_narrows_the_list(kb: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Only blocks of the family count."""
    other = (kb / "families" / "beacon.yaml").read_text(encoding="utf-8")
    other = other.replace("  sender: {at: [1, 0]}\n", "").replace(
        "  sender: {rail: supply.rail}", ""
    )
    (kb / "families" / "lamp.yaml").write_text(
        other.replace("wiring:", "wiring: {}"), encoding="utf-8"
    )
    lines = listed(capsys, "blocks", "--family", "lamp").splitlines()[1:]
    assert [line.split()[0] for line in lines] == ["supply", "past"]


def test_an_unknown_family_is_a_wrong_command(kb: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The likely one is offered, and the code is 2."""
    assert main(["list", "checks", "--family", "becon", "--kb", "kb"]) == 2
    said = "dryjoint: no family 'becon'. Did you mean 'beacon'?\n"
    assert capsys.readouterr().err == said


def test_a_missing_knowledge_base_is_a_wrong_command(
    kb: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """One line says which directory is not there."""
    assert main(["list", "checks", "--kb", "nowhere"]) == 2
    assert capsys.readouterr().err == "dryjoint: nowhere: no such directory\n"


def test_broken_knowledge_is_told_not_listed(kb: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """All problems go to the error stream, without a traceback."""
    (kb / "sources.yaml").write_text("sources: [\n", encoding="utf-8")
    assert main(["list", "checks", "--kb", "kb"]) == 1
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.startswith("kb/sources.yaml:2: (text): found a slip (")


@pytest.mark.parametrize("words", [[], ["lsit"], ["list"], ["list", "cheks"]])
def test_a_wrong_command_exits_with_two(
    words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    """The usage is shown."""
    with pytest.raises(SystemExit) as caught:
        main(words)
    assert caught.value.code == 2
    assert capsys.readouterr().err.startswith("usage: dryjoint")
