"""Links that carry a case: there and back, old ones for ever, damaged ones told."""

from typing import Any

import pytest

from web.links import DAMAGED, NEWER, Link, LinkError, case_code, link_in, linked

LOG: dict[str, Any] = {
    "format": 1,
    "family": "beacon",
    "inputs": [
        {"do": "message", "text": "Nobody hears me. Yours, a shepherd"},
        {"do": "kit", "instruments": ["multimeter"], "at": "2026-01-02T03:04:05"},
        {"do": "answer", "check": "sender.weak", "said": "faint", "at": "2026-01-02T03:04:06"},
        {"do": "asked", "checks": ["supply.dark"]},
        {"do": "reply", "text": "1a, says he", "answers": [["supply.dark", "yes"]]},
        {"do": "note", "text": "in the box by the door"},
    ],
}
CARRIED = (
    {"do": "kit", "instruments": ["multimeter"]},
    {"do": "answer", "check": "sender.weak", "said": "faint"},
    {"do": "reply", "text": "", "answers": [["supply.dark", "yes"]]},
)
# Written by the first version of links: this text has to open for ever.
FIRST = (
    "#dj1.-Vj-LYxRCoQwDETvMt_iAQRPIv3o2gilNkqS4or07hth_2bm8ebBhgkfiuvBGJAxLQ_S4VvJ9g6"
    "sJq0SmzpCbbvlSkaC0AcocSIZL4pl3mJmN_620Lnf7ht9zaunyHqRvC8LtJ2OxxSlOLlJEUIP_Qc"
)


def told(text: str) -> str:
    """Return what is said of a link; nothing where the case in it is the one above."""
    try:
        assert link_in(text) == Link("beacon", CARRIED)
    except LinkError as problem:
        return str(problem)
    return ""


def test_a_case_there_and_back() -> None:
    """What was found and the kit; letters, notes and times stay behind."""
    assert link_in(f"see https://some.where/{linked(LOG)} please") == Link("beacon", CARRIED)


def test_repairs_go_with_a_case() -> None:
    """Which cause, and how; when stays behind."""
    repair = {"do": "repair", "cause": "sender.preset", "how": "adjusted"}
    log = {**LOG, "inputs": [*LOG["inputs"], {**repair, "at": "2026-01-02T03:05:00"}]}
    assert link_in(linked(log)) == Link("beacon", (*CARRIED, repair))


def test_questions_and_answers_there_and_back() -> None:
    """With the code of the case and the numbers of the questions."""
    asked, answers = ((2, "supply.dark"), (4, "past.fell")), {"past.fell": "no"}
    found = link_in(linked(LOG, "K7QF", asked, answers))
    assert found == Link("beacon", CARRIED, "K7QF", asked, answers)


def test_a_link_of_the_first_version_opens() -> None:
    """The case in it is the one above."""
    assert link_in(FIRST) == Link("beacon", CARRIED)


@pytest.mark.parametrize("text", ["", "no link", "https://some.where/#top", "#dj1"])
def test_what_is_no_link_of_ours_is_none(text: str) -> None:
    """Another fragment is not touched."""
    assert link_in(text) is None


def test_every_damage_is_told() -> None:
    """Cut short anywhere, or one letter changed anywhere: never another case."""
    whole = linked(LOG)
    start = whole.index(".") + 1
    for place in range(start, len(whole)):
        changed = whole[:place] + ("A" if whole[place] != "A" else "B") + whole[place + 1 :]
        assert told(whole[:place]) == DAMAGED
        is_last = place == len(whole) - 1  # that letter has bits that carry nothing
        assert told(changed) in ((DAMAGED, "") if is_last else (DAMAGED,))


def test_a_newer_link_is_refused_politely() -> None:
    """It says what to do."""
    with pytest.raises(LinkError) as caught:
        link_in("#dj2.abc")
    assert str(caught.value) == NEWER


def test_the_code_of_a_case_is_short_and_its_own() -> None:
    """Four letters that nobody mixes up; of a thousand at most five share theirs."""
    codes = [case_code(str(number)) for number in range(1000)]
    assert {len(code) for code in codes} == {4}
    assert not set("".join(codes)) & set("0O1I")
    assert len(set(codes)) >= 995
    assert case_code("7") == codes[7]
