import json
from collections.abc import Callable
from pathlib import Path

import pytest

from engine.__main__ import main
from engine.terminal.rank import load_case

Talk = Callable[..., str]
START = "all\nyes\n1\n"  # every instrument, the lid off, and no lamp lights

OPENING = """\
Hill-farm beacon, an invented set

  1  Multimeter
  2  Power meter
  3  Dummy load
Which of these are at hand? Numbers, 'all', or nothing: all
May the case be opened? yes or no: yes
  1  No lamp lights
  2  Others hear the set weakly
Which of these are true? Numbers, your own words, or nothing: 1

Go on measuring.

chance  kind        cause                                                      id
25.8 %  outside     Battery flat                                               supply.flat-battery
18.3 %  event       The set was dropped                                        past.drop
15.0 %  fault       Dry joint at the fuse holder                               supply.fuse-joint
1.8 %   unlisted    Supply: something not listed here that harms: Supply rail  supply.unlisted-rail
1.0 %   adjustment  Drive preset turned down                                   sender.preset

Next: Volts on the rail  (3 min)
  Mode: receive
  Right: 12.5 to 13.8 V.
  What voltage is on the rail?
  a number in V
> stop
"""


HELP = """\
  an answer      yes, no, an outcome, or a number with its unit, such as 3.5 W
  cannot         this check cannot be made
  foresee        what each answer would do to the causes
  causes         the likeliest causes        reasons N   why cause number N of that list
  others         other checks                take N      do check number N of that list
  quick          order checks by bits per minute, or back by bits
  costs          repair now or measure on, in minutes
  repaired N HOW cause number N was put right: replaced, adjusted, cleaned or put-back
  found          what was found so far       drop N      take finding number N back
  settle ID      the set is of this kind (where that was not sure)
  back           undo the last step
  save FILE      write the case, to go on later or to rank
  stop
> stop
"""


def proposed(transcript: str) -> list[str]:
    """Return the checks that were proposed, in order."""
    lines = transcript.splitlines()
    return [line.removeprefix("Next: ") for line in lines if line.startswith("Next: ")]


def test_it_begins_with_kit_and_symptoms(talk: Talk) -> None:
    """Then the causes so far, and the check that tells most."""
    assert talk(START + "stop") == OPENING


def test_an_answer_leads_to_the_next_check(talk: Talk) -> None:
    """Until it is sure enough to act; what has been asked is not asked again."""
    said = talk(START + "9.2 V\n1.2 W\nstop")
    assert "Sure enough to act:\n  Battery flat\n    Charge it.\n" in said
    asked = proposed(said)
    assert asked[:2] == ["Volts on the rail  (3 min)", "Power into the dummy load  (3 min)"]
    assert len(set(asked)) == len(asked)


def test_a_wrong_entry_changes_nothing(talk: Talk) -> None:
    """It is said what was expected, and the same check stays open."""
    said = talk(START + "plenty\n99 V\n12.9 V\nstop")
    assert "supply.rail-volts: found 'plenty' does not begin with a number" in said
    assert "supply.rail-volts: found 99 V, expected 0 to 20 V" in said
    assert proposed(said)[0] == "Volts on the rail  (3 min)"
    assert "Volts on the rail  (3 min)" not in proposed(said)[1:]


def test_a_caution_stands_before_the_check(talk: Talk) -> None:
    """And wraps within the line."""
    said = talk("2 3\nno\n\nloud\nstop")
    lines = said.splitlines()
    at = lines.index("Next: Power into the dummy load  (3 min)")
    assert lines[at + 1] == (
        "  ! Dummy load before keying: Connect the dummy load before the button is pressed."
    )
    assert max(len(line) for line in lines[at:]) <= 100


def test_what_cannot_be_checked_is_passed_over(talk: Talk) -> None:
    """It says nothing and is not proposed again."""
    said = talk(START + "cannot\nfound\nstop")
    first, second = proposed(said)
    assert first != second
    assert "  1  No lamp lights: yes\n  2  Volts on the rail: cannot-check\n" in said
    assert said.count("25.8 %  outside     Battery flat") == 2


def test_back_undoes_one_step_at_a_time(talk: Talk) -> None:
    """Answers, what could not be checked, and findings taken back."""
    said = talk(START + "9 V\ncannot\ndrop 1\nback\nfound\nback\nback\nfound\nstop")
    before, after = said.split("> found\n")[1:]
    assert before.startswith("  1  No lamp lights: yes\n  2  Volts on the rail: 9 V\n  3  ")
    assert after.startswith("  1  No lamp lights: yes\n> stop")


def test_back_at_the_beginning_changes_nothing(talk: Talk) -> None:
    """There is nothing to undo."""
    said = talk("all\nyes\n\nback\nfound\nstop")
    assert said.endswith("> found\n> stop\n")


def test_reasons_add_up(talk: Talk) -> None:
    """The cause by its number in the list; decibans before, for each finding, and now."""
    said = talk(START + "9 V\nreasons 1\nstop")
    lines = said.split("> reasons 1\n")[1].splitlines()
    assert lines[0] == "  Battery flat"
    assert lines[1].endswith(" decibans before any finding")
    assert lines[2].endswith("  No lamp lights: yes")
    assert lines[3].endswith("  Volts on the rail: 9 V")
    assert lines[4].endswith(" now")
    prior, *weights, now = (float(line.split()[0]) for line in lines[1:5])
    assert prior + sum(weights) == pytest.approx(now, abs=0.16)  # each is rounded to 0.1


def test_foresee_shows_what_each_outcome_would_do(talk: Talk) -> None:
    """With how likely it is and which causes would lead."""
    said = talk(START + "foresee\nstop")
    shown = said.split("> foresee\n")[1]
    chances = [
        int(line.split("(")[1].split(" %")[0]) for line in shown.splitlines() if line.endswith("%)")
    ]
    assert sum(chances) == pytest.approx(100, abs=2)
    assert chances == sorted(chances, reverse=True)
    assert "  6 to 12 V (" in shown


def test_another_check_can_be_taken(talk: Talk) -> None:
    """By its number in the list of the others, for once."""
    said = talk(START + "others\ntake 3\ntake\ntake 99\nno\nstop")
    listed = said.split("> others\n")[1].splitlines()[1:]
    wanted = listed[2].split("  ")
    assert proposed(said)[1].split("  (")[0] in " ".join(wanted)
    assert said.count("Take which? A number of the list that 'others' shows.") == 2


def test_quick_orders_by_the_minute_and_back(talk: Talk) -> None:
    """The question that takes a minute comes first; the second `quick` undoes it."""
    said = talk("all\nyes\n\nquick\nquick\nstop")
    slow, fast, again = proposed(said)
    assert slow == again
    assert slow != fast


def test_causes_are_listed_at_length(talk: Talk) -> None:
    """More of them than with each check."""
    said = talk(START + "causes\nstop")
    assert said.split("> causes\n")[1].count("\n") > 8


def test_a_finding_is_dropped_by_its_number(talk: Talk) -> None:
    """A number that is not there is told so."""
    said = talk(START + "9 V\ndrop 7\ndrop 1\nfound\nstop")
    assert "Drop which? A number of the list that 'found' shows.\n" in said
    assert "> found\n  1  Volts on the rail: 9 V\n> stop" in said


def test_a_case_is_saved_and_gone_on_with(talk: Talk) -> None:
    """With its kit, its findings and what was typed."""
    said = talk(START + "9,2 V\ncannot\nsave\nsave nowhere/set-7.yaml\nsave set-7.yaml\nstop")
    assert "Save where? Give a file name, such as: save set-7.yaml\n" in said
    assert "nowhere/set-7.yaml: No such file or directory. Nothing is lost;" in said
    assert "Saved in set-7.yaml. Go on later with: dryjoint ask set-7.yaml\n" in said
    later = talk("found\nstop", "set-7.yaml")
    assert "  1  No lamp lights: yes\n  2  Volts on the rail: 9,2 V\n  3  " in later
    _, case = load_case(Path("set-7.yaml"), Path("kb"))
    assert [finding.said for finding in case.findings] == ["yes", "9,2 V", "cannot-check"]
    assert case.kit.lid == "off"


def test_a_saved_case_can_be_ranked(talk: Talk, capsys: pytest.CaptureFixture[str]) -> None:
    """The file of `ask` is a case file."""
    talk(START + "9 V\nsave set-7.yaml\nstop")
    assert main(["rank", "set-7.yaml", "--kb", "kb"]) == 0
    assert "2 findings" in capsys.readouterr().out


def test_it_ends_when_no_check_is_left(talk: Talk) -> None:
    """Without kit there are three questions; then only commands are of use."""
    said = talk("\nno\n\nloud\nno\nno\nno more\nstop")
    assert "No check is left that this kit allows." in said
    assert "  stop\n" in said.split("> no more\n")[1]


def test_the_end_of_the_input_is_a_stop(talk: Talk) -> None:
    """A pipe that ends ends the conversation, without a traceback."""
    assert talk(START).endswith("> \n")


def test_a_symptom_with_outcomes_can_be_chosen(talk: Talk) -> None:
    """Then it is asked how it shows."""
    assert "faint" in talk("all\nyes\n2\nfaint\nstop")


def test_help_can_be_asked_for_at_any_time(talk: Talk) -> None:
    """It tells all that can be typed, and the same check stays open."""
    assert talk(START + "help\nstop") == OPENING.replace("> stop\n", "> help\n") + HELP


def test_a_family_that_is_not_there_is_a_wrong_command(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The one that was meant is offered."""
    assert main(["ask", "--family", "becon", "--kb", "kb"]) == 2
    said = "dryjoint: no family 'becon'. Did you mean 'beacon'?\n"
    assert capsys.readouterr().err == said


def test_one_of_several_families_is_chosen(bench: Path, talk: Talk) -> None:
    """By its number; anything else is asked again."""
    text = (bench / "families" / "beacon.yaml").read_text(encoding="utf-8")
    other = text.replace("Hill-farm beacon, an invented set", "Second beacon, invented")
    (bench / "families" / "other.yaml").write_text(other, encoding="utf-8")
    said = talk("7\n2\nall\nyes\n\nstop")
    assert said.startswith("  1  beacon\n  2  other\nWhich kind of set? 7\nA number from 1 to 2.\n")
    assert "Second beacon, invented" in said


def with_limit(bench: Path) -> None:
    """Hold the power of the tiny set's sender to the limit of its rules."""
    sender = bench / "blocks" / "sender.yaml"
    text = sender.read_text(encoding="utf-8")
    held = text.replace("unit: W", "unit: W\n    limit: carrier-power")
    sender.write_text(held, encoding="utf-8")


def test_a_reading_is_told_as_it_was_understood(bench: Path, talk: Talk) -> None:
    """And held to the limit of the family's rules, as far as the instrument can tell."""
    with_limit(bench)
    said = talk("2 3\nno\n\nloud\n35 Vpp\nstop")
    after = said.split("> 35 Vpp\n")[1].splitlines()
    assert after[:2] == [
        "  Understood: 35 Vpp across 50 ohm is 3.06 W.",
        "  3.062 W: within the 4 W limit (bench-book, as read).",
    ]


def test_what_the_instrument_cannot_tell_is_said(bench: Path, talk: Talk) -> None:
    """The line breaks within a hundred columns; a plain number is not repeated."""
    with_limit(bench)
    said = talk("2 3\nno\n\nloud\n3.9 W\nstop")
    after = said.split("> 3.9 W\n")[1].splitlines()
    assert after[:2] == [
        "  3.9 W: cannot tell whether it keeps the 4 W limit (bench-book, as read): "
        "the instrument is",
        "    good to ±0.724 W, ±0.100 W would tell.",
    ]


def test_a_ranked_case_ends_with_its_limits(
    bench: Path, talk: Talk, capsys: pytest.CaptureFixture[str]
) -> None:
    """Readings that are held to a limit stand below the tables."""
    with_limit(bench)
    talk("2 3\nno\n\nloud\n9 W\nsave set-7.yaml\nstop")
    assert main(["rank", "set-7.yaml", "--kb", "kb"]) == 0
    assert capsys.readouterr().out.endswith(
        "\n\nLimits:\n"
        "  Power into the dummy load: 9 W: beyond the 4 W limit (bench-book, as read)\n"
    )


KIT_SLIPS = """\
Which of these are at hand? Numbers, 'all', or nothing: al
Not understood: al. Numbers from 1 to 3, 'all', nothing, or stop.
Which of these are at hand? Numbers, 'all', or nothing: 1, 4 meter
Not understood: 4, meter. Numbers from 1 to 3, 'all', nothing, or stop.
Which of these are at hand? Numbers, 'all', or nothing: everything
May the case be opened? yes or no: perhaps
Not understood: perhaps. Type yes, no or stop.
May the case be opened? yes or no: N
  1  No lamp lights
  2  Others hear the set weakly
Which of these are true? Numbers, your own words, or nothing: all
Not understood: all. Numbers from 1 to 2, nothing, or stop.
Which of these are true? Numbers, your own words, or nothing: none
"""


def test_slips_at_the_beginning_are_told(talk: Talk) -> None:
    """No word is passed over: what was not understood is asked again."""
    said = talk("al\n1, 4 meter\neverything\nperhaps\nN\nall\nnone\nstop")
    assert KIT_SLIPS in said
    assert len(proposed(said)) == 1


@pytest.mark.parametrize(
    "lines", ["stop", "all\nstop", "all\nno\nstop", "all\nno\n2\nstop"], ids=range(4)
)
def test_stop_is_heard_at_every_question(lines: str, talk: Talk) -> None:
    """Nothing is asked after it, and nothing is proposed."""
    said = talk(lines)
    assert said.endswith("stop\n")
    assert proposed(said) == []


def test_an_empty_line_leaves_a_symptom_out(talk: Talk) -> None:
    """How it shows need not be told."""
    assert "> found\n> stop\n" in talk("all\nno\n2\n\nfound\nstop")


AUTHORED = """\
format: 1
family: beacon
title: The set of the lower fold
story: An invented one.
findings:
- check: supply.dark
  answer: 'yes'
  note: Said so on the telephone.
- check: sender.power
  answer: 3.5
causes:
- supply.fuse-joint
reasoning: Nothing else is dark.
"""


def test_what_an_author_wrote_is_kept(talk: Talk) -> None:
    """Gone on with and saved, a case keeps title, story, notes and causes; findings change."""
    Path("set-7.yaml").write_text(AUTHORED, encoding="utf-8")
    talk("save same.yaml\ndrop 2\n9.2 V\nsave more.yaml\nstop", "set-7.yaml")
    assert Path("same.yaml").read_text(encoding="utf-8") == AUTHORED
    added = AUTHORED.replace(
        "check: sender.power\n  answer: 3.5", "check: supply.rail-volts\n  answer: 9.2 V"
    )
    assert Path("more.yaml").read_text(encoding="utf-8") == added


def interrupt(prompt: str) -> str:
    """Press Ctrl-C."""
    raise KeyboardInterrupt


def end(prompt: str) -> str:
    """End the input."""
    raise EOFError


@pytest.mark.parametrize(
    ("read", "words"), [(interrupt, []), (end, ["--family", ""])], ids=["Ctrl-C", "end of input"]
)
def test_an_interruption_is_no_traceback(
    read: Callable[[str], str],
    words: list[str],
    bench: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """It ends the conversation in words; the code is that of an interrupted command."""
    text = (bench / "families" / "beacon.yaml").read_text(encoding="utf-8")
    (bench / "families" / "other.yaml").write_text(text, encoding="utf-8")
    monkeypatch.setattr("builtins.input", read)
    assert main(["ask", "--kb", "kb", *words]) == 130
    assert capsys.readouterr().out.endswith("\nStopped. What was not saved is gone.\n")


def test_a_case_saved_by_the_page_is_gone_on_with(talk: Talk) -> None:
    """Its inputs are replayed; saved here it becomes a case file."""
    inputs = [
        {"do": "lid", "lid": "off"},
        {"do": "kit", "instruments": ["multimeter"]},
        {"do": "answer", "check": "supply.dark", "said": "yes"},
    ]
    page = {"format": 1, "family": "beacon", "inputs": inputs}
    Path("page.json").write_text(json.dumps(page), encoding="utf-8")
    said = talk("found\nsave set-7.yaml\nstop", "page.json")
    assert "> found\n  1  No lamp lights: yes\n> save" in said
    assert Path("set-7.yaml").read_text(encoding="utf-8") == (
        "format: 1\nfamily: beacon\nkit:\n  instruments:\n  - multimeter\n"
        "findings:\n- check: supply.dark\n  answer: 'yes'\n"
    )
