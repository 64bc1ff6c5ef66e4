"""A repair on the page: how it is told, what comes back of it, and where it shows."""

import re
from collections.abc import Sequence

import pytest

from engine.diagnosis.case import Repair
from engine.diagnosis.model import SetModel
from engine.diagnosis.repairing.again import mended
from tests.web.test_views import after
from web.answering import bench_of
from web.replaying import Input, is_replayable, replay
from web.shelf_lines import line_of
from web.views.bench import bench_screen
from web.views.causes import causes
from web.views.check import check_at_hand
from web.views.findings import findings
from web.views.markup import html
from web.views.mending import mend_buttons, mended_card, mended_told
from web.views.page import later
from web.views.shelf.closing import closing_screen
from web.views.shelf.row import case_row
from web.views.state import Bench, Shown
from web.views.symptoms import symptoms
from web.views.timeline import timeline
from web.views.verdict import sentence

RAIL = {"do": "answer", "check": "supply.rail-volts", "said": "13 V", "at": "2001-02-03T10:00:00"}
WEAK = {"do": "answer", "check": "sender.weak", "said": "nothing", "at": "2001-02-03T10:01:00"}
POWER = {"do": "answer", "check": "sender.power", "said": "20 mW", "at": "2001-02-03T10:02:00"}
FOUND = (RAIL, WEAK, POWER)
MENDED = {
    "do": "repair",
    "cause": "sender.preset",
    "how": "adjusted",
    "at": "2001-02-03T11:00:00",
}
TITLE = "Drive preset turned down"


@pytest.fixture
def guessed(small_model: SetModel) -> Bench:
    """Return a weak set of which the preset was put right."""
    return after(small_model, *FOUND, MENDED)


def test_a_repair_is_an_input_of_the_log(guessed: Bench) -> None:
    """It begins a new stretch, with its time; the step before it is kept for comparison."""
    (stretch,) = guessed.case.past
    assert stretch.repair == Repair("sender.preset", "adjusted")
    assert [each.check for each in stretch.findings] == [str(each["check"]) for each in FOUND]
    assert (guessed.when(0), guessed.when(0, "sender.power")) == (
        "2001-02-03 11:00",
        "2001-02-03 10:02",
    )
    assert guessed.before is not None
    assert guessed.before.causes[0].id == "sender.preset"


WRONG: tuple[tuple[Input, str], ...] = (
    ({**MENDED, "cause": "sender.prest"}, "sender.prest: a repair"),
    ({**MENDED, "cause": "past.drop"}, "past.drop: a repair"),
    ({**MENDED, "how": "polished"}, "sender.preset: polished"),
)


@pytest.mark.parametrize(("given", "words"), WRONG, ids=["unknown", "event", "how"])
def test_a_repair_that_cannot_be_used_is_set_aside(
    small_model: SetModel, given: Input, words: str
) -> None:
    """A cause that is not known, one that is past, and a way that is none: said, and left out."""
    state = replay(small_model, [RAIL, given])
    assert state.set_aside == (words,)
    assert state.case.past == ()


NO_REPAIRS: Sequence[object] = ({"do": "repair"}, {**MENDED, "cause": 3}, {**MENDED, "how": None})


@pytest.mark.parametrize("given", NO_REPAIRS, ids=["nothing", "number", "no how"])
def test_a_damaged_repair_is_no_input(given: object) -> None:
    """What is no text, or missing, is told on reading the file."""
    assert is_replayable([MENDED])
    assert not is_replayable([given])


TAKEN = {"do": "unrepair", "cause": "sender.preset"}
LATER = {"do": "answer", "check": "sender.power", "said": "25 mW", "at": "2001-02-03T12:00:00"}


def test_a_repair_is_taken_out_of_the_middle(small_model: SetModel) -> None:
    """As if it had never been: later findings stay, of a check made twice the later one."""
    bench = after(small_model, *FOUND, MENDED, LATER, TAKEN)
    never = after(small_model, *FOUND, LATER)
    assert bench.case == never.case
    assert bench.times == never.times
    assert bench.step == never.step
    assert bench.before is not None
    assert bench.before.causes != bench.step.causes
    told = {"do": "message", "text": "dead"}
    state = replay(small_model, [*FOUND, MENDED, TAKEN, told, MENDED])
    assert [stretch.repair.cause for stretch in state.case.past] == ["sender.preset"]


def test_taking_back_what_was_never_done_is_set_aside(small_model: SetModel) -> None:
    """Nothing else of the case is touched."""
    state = replay(small_model, [RAIL, TAKEN])
    assert state.set_aside == ("sender.preset: nothing to take back",)
    assert len(state.case.findings) == 1
    assert not is_replayable([{"do": "unrepair"}])


def test_the_card_takes_back_the_latest_repair_of_a_cause(small_model: SetModel) -> None:
    """One button for each cause, named for those who cannot see where it stands."""
    bench = after(small_model, *FOUND, MENDED, LATER, MENDED)
    card = html(mended_card(bench))
    assert card.count(">Take it back</button>") == 1
    assert f'aria-label="Take back, it was not done: {TITLE}"' in card
    assert card.index("11:00") < card.index("Take it back")


def test_an_opened_cause_can_be_told_as_mended(small_model: SetModel) -> None:
    """The usual way comes first; what a set went through cannot be mended."""
    bench = after(small_model, *FOUND)
    shown = html(mend_buttons(bench, "sender.preset"))
    assert '<h3 id="mending-sender.preset">I have mended it</h3>' in shown
    order = [shown.index(f">{how}</button>") for how in ("Adjusted", "Replaced", "Cleaned")]
    assert order == sorted(order)
    assert f'aria-label="Put back as it should be: {TITLE}"' in shown
    assert shown in html(causes(bench, Shown(cause="sender.preset")))
    assert "I have mended it" not in html(causes(bench, Shown(cause="past.drop")))


def test_what_was_mended_says_so(guessed: Bench) -> None:
    """Opened again, it has no buttons but how and when it was done."""
    shown = html(mend_buttons(guessed, "sender.preset"))
    words = "You have put this right: adjusted, 2001-02-03 11:00."
    assert shown == f'<p class="mended-before">{words}</p>'


def test_after_it_the_checks_to_repeat_stand_first(guessed: Bench) -> None:
    """The card names them with what they said; the first is the check at hand, and says so."""
    card = html(mended_card(guessed))
    assert f"<b>{TITLE}</b>: adjusted, 2001-02-03 11:00" in card
    again = [name for name in ("sender.power", "sender.weak") if f'id="again-{name}"' in card]
    assert again == ["sender.power", "sender.weak"]
    assert "before: 0.02 W" in card
    assert 'id="again-supply.rail-volts"' not in card
    at_hand = guessed.check_at_hand(Shown())
    assert at_hand is not None
    assert at_hand.id in again
    check = html(check_at_hand(guessed, Shown(check="sender.power")))
    assert '<p class="over">Check again</p>' in check
    assert '<p class="understood" id="was">Before the repair: 0.02 W.</p>' in check
    assert sentence(guessed).startswith(f"Put right: {TITLE}. Check again")


def test_without_a_repair_there_is_no_card(fresh: Bench) -> None:
    """Nothing of it shows on the bench."""
    assert mended_card(fresh) is None
    assert 'id="mended"' not in html(*bench_screen(fresh, Shown()))
    assert "mended" not in later(fresh, Shown(screen="bench"), "check", "0")


TOLD = {
    "20 mW": "Most likely it had been right all along: this repair changed nothing.",
    "3.8 W": "It had been wrong, and this repair put it right.",
}


@pytest.mark.parametrize("said", TOLD)
def test_whether_a_repair_changed_anything_is_told(small_model: SetModel, said: str) -> None:
    """The same reading speaks against it, a right one for it; what was thought then stays."""
    bench = after(small_model, *FOUND, MENDED, {**POWER, "said": said})
    shown = later(bench, Shown(screen="bench"), "check", "0")["mended"]
    assert re.search(rf"{TITLE}: [\d.]+ % likely to be wrong when it was put right", shown)
    assert TOLD[said] in shown


def test_right_after_a_repair_only_what_was_thought_is_told(guessed: Bench) -> None:
    """Nothing can be said of it before something was checked again."""
    (shown,) = mended_told(guessed, mended(guessed.model, guessed.case))
    assert html(shown).endswith("Nothing was checked since.</p>")


def test_a_repair_between_is_told_by_what_came_after_it(small_model: SetModel) -> None:
    """The first of two repairs is not called unchecked, though nothing came after the last."""
    last = {**MENDED, "cause": "sender.output-transistor", "how": "replaced"}
    bench = after(small_model, *FOUND, MENDED, POWER, last)
    first, second = mended_told(bench, mended(bench.model, bench.case))
    assert "this repair changed nothing" in html(first)
    assert "Nothing was checked since." in html(second)


def test_findings_before_it_are_of_the_set_as_it_was(guessed: Bench) -> None:
    """They stand apart; what hangs on the repair can be checked again, the rest changed."""
    shown = html(findings(guessed))
    assert "Found since the repair" in shown
    assert "Nothing since the repair." in shown
    assert f"The set as it was, before “{TITLE}” was adjusted" in shown
    assert 'data-found-before="sender.power"' in shown
    assert "data-finding" not in shown
    assert 'aria-label="Check again: Power into the dummy load"' in shown
    assert 'aria-label="Change: Volts on the rail"' in shown


def test_what_was_checked_again_is_history(small_model: SetModel) -> None:
    """The earlier finding of a check that was made again can be neither changed nor withdrawn."""
    bench = after(small_model, *FOUND, MENDED, {**POWER, "said": "21 mW"})
    shown = html(findings(bench))
    earlier = shown[shown.index("data-found-before") :]
    assert 'data-finding="sender.power"' in shown
    assert "Withdraw: Power into the dummy load" not in earlier
    assert "Withdraw: Volts on the rail" in earlier


def test_the_timeline_shows_it_as_an_event(guessed: Bench) -> None:
    """A diamond among the marks, a line in the list, and what the bits count."""
    shown = html(timeline(guessed))
    assert 'class="stage repair"' in shown
    assert f"<span>Put right: {TITLE} (adjusted)</span>" in shown
    assert "A diamond is a repair" in shown


def test_symptoms_that_stand_stay_ticked(small_model: SetModel) -> None:
    """What the repair cannot have changed is still ticked, what it may have cured is not."""
    dark = {"do": "answer", "check": "supply.dark", "said": "yes"}
    bench = after(small_model, dark, WEAK, MENDED)
    assert [each.check for each in bench.standing] == ["supply.dark"]
    shown = html(*symptoms(bench, Shown()))
    (box,) = (part for part in shown.split("<input") if "tick-supply.dark" in part)
    assert "checked" in box.partition(">")[0]


def test_undo_takes_it_back(small_model: SetModel) -> None:
    """Without its input the case is as it was before."""
    assert bench_of(small_model, replay(small_model, [*FOUND])).case.past == ()


def test_the_shelf_tells_what_was_put_right_and_what_comes_next(guessed: Bench) -> None:
    """The complaint stays that of the set as it came; the next step is to check again."""
    line = line_of(guessed)
    assert line == {
        "complaint": "Others hear the set weakly: Nothing at all",
        "now": sentence(guessed),
        "mended": f"{TITLE} (adjusted, 2001-02-03 11:00)",
        "next": "Check again: Power into the dummy load; Others hear the set weakly.",
    }
    record = {"id": "a", "log": {"family": "beacon", "inputs": []}, "status": "bench", "line": line}
    shown = html(case_row(record, Shown(), {}))
    assert f"<dt>Put right</dt><dd>{line['mended']}</dd>" in shown
    assert f"<dt>Next step</dt><dd>{line['next']}</dd>" in shown
    assert "Next step" not in html(case_row({**record, "status": "closed"}, Shown(), {}))
    own = html(case_row({**record, "next": "Ring the owner"}, Shown(), {}))
    assert "<dt>Next step</dt><dd>Ring the owner</dd>" in own


def test_once_it_is_cured_the_next_step_is_to_close(small_model: SetModel) -> None:
    """As soon as no other cause is likely left; the verdict says so too."""
    cured = [{**POWER, "said": "3.8 W"}, {**WEAK, "said": "loud"}]
    dark = {"do": "answer", "check": "supply.dark", "said": "no"}
    bench = after(small_model, *FOUND, MENDED, *cured, dark)
    line = line_of(bench)
    assert sentence(bench).startswith(
        f"The last repair did it: {TITLE}; no other cause is likelier"
    )
    assert line["complaint"] == "Others hear the set weakly: Nothing at all"
    assert line["next"] == "The last repair did it: prove the set, then close the case."


def test_closing_names_what_was_put_right_first(guessed: Bench) -> None:
    """It is not ticked by itself: only a person says what it was."""
    shown = html(*closing_screen(guessed, Shown(screen="closing")))
    assert "What was put right, and what leads now" in shown
    first = shown[shown.index('type="checkbox"') :].partition("</div>")[0]
    assert TITLE in first
    assert "put right here: adjusted, 2001-02-03 11:00" in first
    assert "checked" not in first
