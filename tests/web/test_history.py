"""A set that comes back: which cases are its own, what is told of them, and what counts."""

from typing import Any

import pytest

from engine.diagnosis.model import SetModel
from engine.diagnosis.returning import Visit, returned
from tests.web.test_views import after
from web.answering import bench_of
from web.history import earlier_cases, visits_input
from web.own_counts import model_of
from web.replaying import is_replayable, replay
from web.views.bench import bench_screen
from web.views.here_before import here_before, here_before_part, history_note
from web.views.markup import html
from web.views.record.sheet import paper, summary
from web.views.shelf.row import case_row
from web.views.state import Bench, Shown

PRESET, TRANSISTOR = "sender.preset", "sender.output-transistor"
ABOUT = {"id": "now", "owner": "Upper fold", "title": "Set 7", "opened": "2026-07-01T10:00:00"}
TITLES = {PRESET: "Drive preset turned down", TRANSISTOR: "Output transistor failed"}


def record(**more: Any) -> dict[str, Any]:
    """Return an earlier case of the same set, closed with its cause confirmed and replaced."""
    repair = {"do": "repair", "cause": TRANSISTOR, "how": "replaced", "at": "2026-01-01T09:00:00"}
    closed = {"at": "2026-01-01T10:00:00", "how": "found", "causes": [TRANSISTOR]}
    return {
        "id": "then",
        "owner": " upper  Fold ",
        "title": "Set 7",
        "status": "closed",
        "opened": "2025-12-30T10:00:00",
        "changed": "2026-01-02T10:00:00",
        "closed": {**closed, "titles": [TITLES[TRANSISTOR]]},
        "log": {"family": "beacon", "inputs": [repair]},
        **more,
    }


NOT_ITS_OWN = {
    "another owner": {"owner": "Lower fold"},
    "no owner": {"owner": ""},
    "another kind": {"log": {"family": "other", "inputs": []}},
    "itself": {"id": "now"},
    "deleted": {"deleted": "2026-02-01T10:00:00"},
    "later": {"opened": "2026-07-02T10:00:00"},
}


@pytest.mark.parametrize("more", NOT_ITS_OWN.values(), ids=NOT_ITS_OWN)
def test_a_case_of_something_else_is_not_taken(more: dict[str, Any]) -> None:
    """Owner, kind of set and time have to fit; spaces and capitals of the owner do not matter."""
    assert earlier_cases(ABOUT, "beacon", [record(**more)]) == ()


def test_without_owner_or_kind_nothing_is_its_own() -> None:
    """Two sets of nobody are not one set, nor are two of a kind not known."""
    assert earlier_cases({**ABOUT, "owner": " "}, "beacon", [record(owner="")]) == ()
    unsure = record(log={"family": "not-sure", "inputs": []})
    assert earlier_cases(ABOUT, "not-sure", [unsure]) == ()


def test_an_earlier_case_tells_what_it_was(small_model: SetModel) -> None:
    """The latest first, with months to today's opening; what is not confirmed is no cause."""
    old = record(
        id="old", changed="2020-01-01T10:00:00", status="open", opened="2019-12-01T10:00:00"
    )
    first, second = earlier_cases(ABOUT, "beacon", [old, record()])
    assert (first.id, first.months, first.visit) == (
        "then",
        5.9,
        Visit(5.9, (TRANSISTOR,), (TRANSISTOR,)),
    )
    assert (second.id, second.visit) == ("old", Visit(78.0, (), (TRANSISTOR,)))
    unknown = record(closed={"at": "2026-01-01T10:00:00", "how": "unknown", "causes": [PRESET]})
    assert earlier_cases(ABOUT, "beacon", [unknown])[0].confirmed == {}


def counted() -> dict[str, Any]:
    """Return the input that lets the earlier case count."""
    return visits_input(earlier_cases(ABOUT, "beacon", [record()]))


def test_it_counts_only_by_an_input_of_the_log(small_model: SetModel) -> None:
    """Off, on, off again: the model of the knowledge, of the set's own past, of the knowledge."""
    on, off = counted(), visits_input(())
    models = {"beacon": small_model}
    logs = [{"family": "beacon", "inputs": inputs} for inputs in ([], [on], [on, off])]
    history = (Visit(5.9, (TRANSISTOR,), (TRANSISTOR,)),)
    assert [model_of(models, log) for log in logs] == [
        small_model,
        returned(small_model, history),
        small_model,
    ]
    assert replay(small_model, [on]).history == history
    assert replay(small_model, [on, off]).history == ()


DAMAGED = (
    {"do": "history"},
    {"do": "history", "visits": "none"},
    {"do": "history", "visits": [{"months": "many", "causes": [], "replaced": []}]},
    {"do": "history", "visits": [{"months": 1, "causes": [3], "replaced": []}]},
)


@pytest.mark.parametrize("given", DAMAGED, ids=["nothing", "text", "months", "causes"])
def test_a_damaged_past_is_no_input(given: dict[str, Any]) -> None:
    """What is none is told on reading the file."""
    assert is_replayable([counted()])
    assert not is_replayable([given])


@pytest.fixture
def shown() -> Shown:
    """Return the view of a case whose set was here before."""
    return Shown(screen="bench", about=ABOUT, earlier=(record(),))


TOLD = (
    "2026-01-01, Set 7: Output transistor failed. Put right: Output transistor failed (replaced)."
)


def test_the_bench_says_so_and_asks(fresh: Bench, shown: Shown) -> None:
    """The line, and the switch, off; nothing is changed by itself."""
    card = html(here_before(fresh, shown))
    assert "This set was here before" in card
    assert TOLD in card
    assert "checked" not in card
    assert card in html(*bench_screen(fresh, shown))
    assert history_note(fresh) is None
    assert here_before(fresh, Shown(about=ABOUT)) is None


def test_switched_on_it_is_marked(small_model: SetModel, shown: Shown) -> None:
    """The box is ticked, the note stands on every screen, and the record says it."""
    state = replay(small_model, [counted()])
    bench = bench_of(returned(small_model, state.history), state)
    assert "checked" in html(here_before(bench, shown))
    words = "Worked out with priors that an earlier case of this very set changed."
    assert words in html(history_note(bench))
    for written in (html(paper(bench, (), "1", shown)), summary(bench, "1", shown)):
        assert TOLD in written
        assert words in written


def test_the_record_says_what_was_not_counted(fresh: Bench, shown: Shown) -> None:
    """Off, the earlier case stands in the record all the same."""
    part = here_before_part(fresh, shown)
    assert part is not None
    assert part.lines == (TOLD, "Not counted in the chances of this record.")
    assert here_before_part(fresh, Shown()) is None


def test_where_nothing_was_confirmed_there_is_no_switch(fresh: Bench) -> None:
    """The case is told of, with nothing to count."""
    bare = record(status="bench", log={"family": "beacon", "inputs": []}, title="")
    card = html(here_before(fresh, Shown(about=ABOUT, earlier=(bare,))))
    assert "2026-01-02: still open." in card
    assert "<input" not in card


def test_the_shelf_tells_it_too(small_model: SetModel) -> None:
    """In the row of the later case, with the titles that closing kept."""
    now = {**ABOUT, "log": {"family": "beacon", "inputs": []}, "status": "bench"}
    then = record(line={"mended": "Output transistor failed (replaced)"})
    row = html(case_row(now, Shown(kept=(now, then)), {}))
    assert f"<dt>Here before</dt><dd>{TOLD}</dd>" in row
    short = "2026-01-01, Set 7: Output transistor failed."
    row = html(case_row(now, Shown(kept=(now, record())), {}))
    assert f"<dt>Here before</dt><dd>{short}</dd>" in row
    assert "Here before" not in html(case_row(record(), Shown(kept=(now, record())), {}))


def test_other_findings_weigh_as_ever(small_model: SetModel) -> None:
    """With the past counted the transistor is less likely than without: it is new."""
    weak = {"do": "answer", "check": "sender.power", "said": "20 mW"}
    plain, state = after(small_model, weak), replay(small_model, [counted(), weak])
    past = bench_of(returned(small_model, state.history), state)

    def chance(bench: Bench) -> float:
        return next(each.probability for each in bench.step.causes if each.id == TRANSISTOR)

    assert chance(past) < 0.5 * chance(plain)
