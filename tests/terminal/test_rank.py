import json
from pathlib import Path
from typing import Any

import pytest

from engine.__main__ import main
from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.explaining import explanations
from engine.diagnosis.advising.steps import proposed
from engine.terminal.rank import load_case

CASE = """\
format: 1
family: beacon
findings:
  - {check: sender.weak, answer: nothing}
  - {check: supply.dark, answer: no}
  - {check: sender.power, answer: 20 mW}
"""

REPORT = """\
Hill-farm beacon, an invented set
3 findings, 1.23 bits left

Go on measuring.

chance  kind        cause                     id
85.0 %  adjustment  Drive preset turned down  sender.preset
10.3 %  fault       Output transistor failed  sender.output-transistor
5.8 %   event       The set was dropped       past.drop

bits   min  next check                          id
0.304  6    Junctions of the output transistor  sender.transistor-junctions
0.261  3    Volts on the rail                   supply.rail-volts
0.108  1    The set has fallen                  past.fell

Together:
   80.0 %  Drive preset turned down
    9.5 %  Output transistor failed (Shorted)
"""

NEARLY = """\
Hill-farm beacon, an invented set
4 findings, 0.83 bits left

Nearly sure; the next check would confirm or clear it:
  Drive preset turned down

chance  kind        cause                     id
94.0 %  adjustment  Drive preset turned down  sender.preset

bits   min  next check         id
0.276  3    Volts on the rail  supply.rail-volts

Together:
   88.6 %  Drive preset turned down
"""

KEYS = [
    "format",
    "family",
    "knowledge_version",
    "kinds",
    "verdict",
    "causes",
    "blocks",
    "checks",
    "entropy_bits",
    "p_findings",
    "log2_p_findings",
    "p_all_fine",
    "explanations",
    "clash",
    "set_aside",
    "conflict_bits",
    "frequencies",
    "repairs",
    "repeat",
    "costs",
    "doubts",
]


def ranked(capsys: pytest.CaptureFixture[str], case: str, *words: str) -> str:
    """Return what `dryjoint rank` prints about a case."""
    Path("case.yaml").write_text(case, encoding="utf-8")
    assert main(["rank", "case.yaml", "--kb", "kb", *words]) == 0
    return capsys.readouterr().out


def told(capsys: pytest.CaptureFixture[str], case: str, *words: str) -> Any:
    """Return what `dryjoint rank --json` prints."""
    return json.loads(ranked(capsys, case, "--json", *words))


def test_the_report(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Verdict, causes, next checks, and what hangs together."""
    assert ranked(capsys, CASE, "--most", "3", "--joint", "2") == REPORT


def test_the_report_says_what_to_do(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Once a cause is nearly sure, and when nothing more can be checked."""
    case = CASE + "  - {check: sender.transistor-junctions, answer: yes}\n"
    assert ranked(capsys, case, "--most", "1", "--joint", "1") == NEARLY
    asked = case + "  - {check: supply.rail-volts, answer: cannot-check}\n"
    said = ranked(capsys, asked, "--most", "1", "--joint", "1")
    assert "Sure enough to act:\n  Drive preset turned down\n    Set it to the power" in said


def test_cautions_come_before_the_act(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A warning stands above what it warns of."""
    case = CASE.replace("nothing", "faint").replace("20 mW", "1.2 W")
    case += "  - {check: sender.transistor-junctions, answer: no}\n"
    case += "  - {check: supply.rail-volts, answer: 13 V}\n"
    lines = ranked(capsys, case).splitlines()
    start = lines.index("  Output transistor failed")
    assert lines[start + 1 : start + 3] == [
        "    ! Switch off first",
        "    Replace it by one of the same class.",
    ]


def test_a_doubtful_finding_is_shown(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """With how badly it sits."""
    case = """\
format: 1
family: beacon
findings:
  - {check: sender.weak, answer: loud}
  - {check: sender.power, answer: 3.8 W}
  - {check: supply.dark, answer: no}
  - {check: supply.rail-volts, answer: 0.1 V}
"""
    text = ranked(capsys, case)
    assert "Sits badly with the rest (" in text
    assert " bits): Volts on the rail: 0.1 V\n" in text


def test_an_empty_case_is_ranked_by_the_priors(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Nothing was found yet; nothing is sure."""
    data = told(capsys, "{format: 1, family: beacon}\n")
    assert data["p_findings"] == pytest.approx(1.0)
    for cause in data["causes"]:
        assert cause["probability"] == pytest.approx(cause["prior"])


def test_json_holds_everything(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Every field, with all causes and all checks however few the report would show."""
    data = told(capsys, CASE, "--most", "1", "--joint", "2")
    assert list(data) == KEYS
    assert (data["format"], data["family"]) == (1, "beacon")
    assert len(data["knowledge_version"]) == 12
    assert data["verdict"] == {"kind": "measure", "causes": []}
    assert len(data["causes"]) == 8
    assert list(data["causes"][0]) == [
        "id",
        "block",
        "title",
        "kind",
        "prior",
        "probability",
        "ways",
    ]
    assert set(data["blocks"]) == {"supply", "sender", "past"}
    assert [list(check) for check in data["checks"]] == 3 * [
        ["id", "title", "gain_bits", "bits_per_min", "minutes", "effort_min", "needs"]
    ]
    assert data["p_findings"] == pytest.approx(2.0 ** data["log2_p_findings"])
    assert [one["causes"] for one in data["explanations"]] == [
        [["sender.preset", "present"]],
        [["sender.output-transistor", "shorted"]],
    ]
    assert (data["clash"], data["set_aside"], data["doubts"]) == ([], [], [])


def test_json_says_what_the_engine_says(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """To the last bit."""
    data = told(capsys, CASE)
    model, case = load_case(Path("case.yaml"), Path("kb"))
    answer = step(model, case)
    assert [(c["id"], c["probability"]) for c in data["causes"]] == [
        (cause.id, cause.probability) for cause in answer.causes
    ]
    assert [(c["id"], c["gain_bits"]) for c in data["checks"]] == [
        (check.id, check.gain_bits) for check in proposed(answer)
    ]
    assert data["entropy_bits"] == answer.entropy_bits
    assert data["conflict_bits"] == answer.conflict_bits
    assert [one["probability"] for one in data["explanations"]] == [
        one.probability for one in explanations(model, case, 3)
    ]


def test_checks_may_come_by_what_a_minute_tells(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The quick question overtakes the look."""
    by_gain = [check["id"] for check in told(capsys, CASE, "--order", "gain")["checks"]]
    by_minute = [check["id"] for check in told(capsys, CASE, "--order", "minutes")["checks"]]
    assert by_gain == ["sender.transistor-junctions", "supply.rail-volts", "past.fell"]
    assert by_minute == ["past.fell", "supply.rail-volts", "sender.transistor-junctions"]


def test_the_kit_of_the_case_counts(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """With the lid on and no instrument only the question is left."""
    data = told(capsys, CASE + "kit: {instruments: [], lid: on}\n")
    assert [check["id"] for check in data["checks"]] == ["past.fell"]


def test_a_clash_is_named(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What cannot all be true, in words and for scripts; the rest is ranked without it."""
    for name, old, new in (
        ("sender", "wrong: 0.1", "wrong: 0"),
        ("supply", "{right: 0.02, low: 0.2, absent: 0.97}", "{right: 0, low: 0.2, absent: 1}"),
    ):
        path = bench / "blocks" / f"{name}.yaml"
        path.write_text(path.read_text(encoding="utf-8").replace(old, new), encoding="utf-8")
    case = """\
format: 1
family: beacon
findings:
  - {check: supply.dark, answer: yes}
  - {check: past.fell, answer: no}
  - {check: sender.weak, answer: loud}
"""
    lines = ranked(capsys, case).splitlines()
    assert lines[3:6] == [
        "These findings cannot all be true. Look at them again:",
        "  No lamp lights: yes",
        "  Others hear the set weakly: loud",
    ]
    data = told(capsys, case)
    assert data["verdict"] == {"kind": "clash", "causes": []}
    assert data["clash"] == data["set_aside"] == ["supply.dark", "sender.weak"]
    assert data["log2_p_findings"] > -1.0


BROKEN = """\
format: 1
family: beacon
kit: {instruments: [multimetre, dummy-load], lid: off}
findings:
  - {check: supply.dark, answer: perhaps}
  - {check: sender.powr, answer: 1 W}
  - {check: sender.power, answer: much}
  - {check: supply.rail-volts, answer: 230 V}
"""
PROBLEMS = """\
case.yaml:3: kit.instruments.0: found 'multimetre', expected an instrument
  Did you mean 'multimeter'?
case.yaml:5: findings.0.answer: found 'perhaps', expected one of yes, no, or cannot-check
  Known: cannot-check, no, yes.
case.yaml:6: findings.1.check: found 'sender.powr', expected a check of this family
  Did you mean 'sender.power'?
case.yaml:7: findings.2.answer: found 'much' does not begin with a number, expected a reading in W
  Write a number in W, or with its own unit.
case.yaml:8: findings.3.answer: found 230 V, expected 0 to 20 V
  Did you mean 0.23 V? If not, look again at range, unit and decimal point; \
what is right: 12.5 to 13.8 V.
"""
SHAPE = """\
format: 2
family: beacon
findings:
  - {check: dark, answer: yes}
  - {check: supply.dark}
lid: off
"""


def test_all_problems_of_a_case_are_told_at_once(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Names, answers and numbers, each with its line; nothing is ranked."""
    Path("case.yaml").write_text(BROKEN, encoding="utf-8")
    assert main(["rank", "case.yaml", "--kb", "kb"]) == 1
    said = capsys.readouterr()
    assert (said.out, said.err) == ("", PROBLEMS)


def test_a_case_of_the_wrong_shape_is_told_too(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Every place, with what belongs there."""
    Path("case.yaml").write_text(SHAPE, encoding="utf-8")
    assert main(["rank", "case.yaml", "--kb", "kb"]) == 1
    lines = capsys.readouterr().err.splitlines()
    places = [line.partition(": found")[0] for line in lines if not line.startswith("  ")]
    assert places == [
        "case.yaml:1: format",
        "case.yaml:4: findings.0.check",
        "case.yaml:5: findings.1.answer",
        "case.yaml:6: lid",
    ]


def test_a_case_of_another_format_is_told_which_is_known(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A number that must be one certain number is told with it."""
    Path("case.yaml").write_text("format: 2\nfamily: beacon\n", encoding="utf-8")
    assert main(["rank", "case.yaml", "--kb", "kb"]) == 1
    assert capsys.readouterr().err == "case.yaml:1: format: found 2, expected 1\n  Known: 1.\n"


def test_a_case_that_is_not_utf_8_is_told_with_its_line(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """As any other file of knowledge is."""
    Path("case.yaml").write_bytes("format: 1\nfamily: beacon\nstory: Käthe\n".encode("latin-1"))
    assert main(["rank", "case.yaml", "--kb", "kb"]) == 1
    assert capsys.readouterr().err == (
        "case.yaml:3: (text): found the character 0xdce4, expected UTF-8 text\n"
        "  Save it as UTF-8 text.\n"
    )


@pytest.mark.parametrize("option", ["--most", "--joint"])
@pytest.mark.parametrize("number", ["-1", "three", "1.5", "²"])
def test_a_number_of_rows_is_no_less_than_none(
    option: str, number: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """A wrong command is told as one, before anything is read."""
    with pytest.raises(SystemExit) as ended:
        main(["rank", "case.yaml", f"{option}={number}"])
    assert ended.value.code == 2
    said = f"argument {option}: found '{number}', expected a whole number, 0 or more\n"
    assert capsys.readouterr().err.endswith(said)


def test_ways_of_one_cause_are_told_apart(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """No two joint explanations read alike."""
    case = "{format: 1, family: beacon, findings: [{check: supply.dark, answer: yes}]}\n"
    stories = ranked(capsys, case, "--joint", "6").split("Together:\n")[1].splitlines()
    told = [line.partition("%  ")[2] for line in stories]
    assert told[1:4] == [
        "Battery flat (Empty)",
        "Dry joint at the fuse holder + The set was dropped",
        "Battery flat (Weak)",
    ]
    assert len(set(told)) == 6


def page_file(**changes: Any) -> str:
    """Return a case as the page saves it."""
    inputs = [
        {"do": "note", "text": "Invented."},
        {"do": "kit", "instruments": ["multimeter", "power-meter", "dummy-load"]},
        {"do": "lid", "lid": "off"},
        {"do": "answer", "check": "sender.weak", "said": "nothing", "at": "10:31"},
        {"do": "answer", "check": "supply.dark", "said": "no"},
        {"do": "answer", "check": "sender.power", "said": "20 mW"},
    ]
    return json.dumps({"format": 1, "family": "beacon", "inputs": inputs, **changes})


def test_a_case_saved_by_the_page_is_ranked(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Its inputs are replayed: the same findings give the same report."""
    assert ranked(capsys, page_file(), "--most", "3", "--joint", "2") == REPORT


def test_what_the_page_knew_and_this_knowledge_not_is_told(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The rest is ranked."""
    data = json.loads(page_file())
    data["inputs"].append({"do": "answer", "check": "sender.hum", "said": "yes"})
    Path("case.yaml").write_text(json.dumps(data), encoding="utf-8")
    assert main(["rank", "case.yaml", "--kb", "kb", "--most", "3", "--joint", "2"]) == 0
    said = capsys.readouterr()
    assert said.out == REPORT
    assert said.err == ("case.yaml: left out, as this knowledge cannot use it: sender.hum: yes\n")


DAMAGED = {
    "another format": (
        {"format": 9},
        "case.yaml:1: format: found 9, expected 1\n"
        "  Save it again with a page of the same age as this program.\n",
    ),
    "another set": (
        {"family": "becon"},
        "case.yaml:1: family: found becon, expected a kind of set\n  Did you mean 'beacon'?\n",
    ),
    "an answer to nothing": (
        {"inputs": [{"do": "answer"}]},
        "case.yaml:1: inputs: found something else, expected inputs of the page\n"
        "  The file is damaged: save the case again with the page.\n",
    ),
}


@pytest.mark.parametrize(("changes", "message"), DAMAGED.values(), ids=DAMAGED)
def test_a_damaged_file_of_the_page_is_told(
    changes: dict[str, Any], message: str, bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Nothing is ranked."""
    Path("case.yaml").write_text(page_file(**changes), encoding="utf-8")
    assert main(["rank", "case.yaml", "--kb", "kb"]) == 1
    said = capsys.readouterr()
    assert (said.out, said.err) == ("", message)


def test_an_unknown_family_is_a_problem_of_the_case(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """With the one that was meant."""
    Path("case.yaml").write_text("format: 1\nfamily: becon\n", encoding="utf-8")
    assert main(["rank", "case.yaml", "--kb", "kb"]) == 1
    assert capsys.readouterr().err == (
        "case.yaml:2: family: found 'becon', expected a kind of set\n  Did you mean 'beacon'?\n"
    )


def test_a_case_that_is_not_there_is_a_wrong_command(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The code is 2, and one line says why."""
    assert main(["rank", "nowhere.yaml", "--kb", "kb"]) == 2
    assert capsys.readouterr().err == "dryjoint: nowhere.yaml: no such file\n"


def test_broken_knowledge_is_told_not_ranked(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A case says nothing without what it stands on."""
    Path("case.yaml").write_text(CASE, encoding="utf-8")
    (bench / "sources.yaml").write_text("sources: [\n", encoding="utf-8")
    assert main(["rank", "case.yaml", "--kb", "kb"]) == 1
    assert capsys.readouterr().err.startswith("kb/sources.yaml:2: (text): found a slip (")


def test_a_model_is_kept_and_used_again(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Compiled once for each state of the knowledge; the answers stay the same."""
    kept = Path("cache") / "dryjoint"
    first = ranked(capsys, CASE)
    (file,) = kept.iterdir()
    time = file.stat().st_mtime_ns
    assert ranked(capsys, CASE) == first
    assert [(one.name, one.stat().st_mtime_ns) for one in kept.iterdir()] == [(file.name, time)]
    sender = bench / "blocks" / "sender.yaml"
    text = sender.read_text(encoding="utf-8").replace("prior: 0.01", "prior: 0.02")
    sender.write_text(text, encoding="utf-8")
    assert ranked(capsys, CASE) != first
    assert len(list(kept.iterdir())) == 2


def test_where_nothing_can_be_kept_it_is_compiled_each_time(
    bench: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A place that cannot be written to costs time, nothing else."""
    Path("file").write_text("", encoding="utf-8")
    monkeypatch.setenv("XDG_CACHE_HOME", str(Path("file").resolve()))
    assert ranked(capsys, CASE, "--most", "3", "--joint", "2") == REPORT
