"""Not sure which set it is: what the page shows, and going on with one kind."""

import pytest

from engine.diagnosis.kinds import NOT_SURE
from engine.diagnosis.model import SetModel
from tests.diagnosis.making.test_wavering import beacon as beacon
from tests.diagnosis.test_mixing import library as library
from tests.diagnosis.test_mixing import members as members
from tests.diagnosis.test_mixing import mixed as mixed
from web.answering import bench_of
from web.replaying import replay
from web.views.bench import bench_screen
from web.views.home import home
from web.views.markup import html
from web.views.state import Shown


def test_the_bench_shows_the_kinds_in_place_of_the_drawing(mixed: SetModel) -> None:
    """Kinds with their chances and a way to settle; no drawing, as no two are laid out alike."""
    bench = bench_of(
        mixed, replay(mixed, [{"do": "answer", "check": "sender.weak", "said": "faint"}])
    )
    shown = html(*bench_screen(bench, Shown(screen="bench")))
    assert "Which kind of set" in shown
    assert shown.count("It is this one</button>") == 2
    assert 'id="map"' not in shown


def test_a_settled_case_keeps_what_it_can(members: dict[str, SetModel]) -> None:
    """Replayed as one kind, looks at the kind are done with, and nothing is said of them."""
    log = [
        {"do": "answer", "check": "set.knobs", "said": "one"},
        {"do": "answer", "check": "sender.weak", "said": "faint"},
    ]
    state = replay(members["beacon"], log)
    assert [finding.check for finding in state.case.findings] == ["sender.weak"]
    assert state.set_aside == ()


def test_what_comes_and_goes_is_no_look_at_the_kind(beacon: SetModel) -> None:
    """Its checks begin with `set.` as well, and an answer to one counts where the kind is known."""
    state = replay(beacon, [{"do": "answer", "check": "set.knock", "said": "yes"}])
    assert [finding.check for finding in state.case.findings] == ["set.knock"]
    assert state.set_aside == ()


@pytest.mark.parametrize("number", [1, 2])
def test_not_being_sure_is_offered_where_there_is_a_choice(
    members: dict[str, SetModel], number: int
) -> None:
    """With one family there is nothing to be unsure of."""
    families = [model.family for model in members.values()][:number]
    assert (NOT_SURE in html(*home(families, ()))) is (number == 2)
