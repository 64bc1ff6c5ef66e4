import re

import pytest

from engine.diagnosis.case import Case, add_finding, full_kit
from engine.diagnosis.entry import read_answer
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.model import SetModel
from web.views.leaves.tree_leaf import chances_now, cut_sets, tree
from web.views.leaves.tree_picture import ALL_BLOCKS, BLOCKS, CAUSES, groups_of
from web.views.markup import html
from web.views.words import percent

SYMPTOM = "operating.no-trace-at-others"


@pytest.fixture(scope="module")
def found(model: SetModel) -> Case:
    """Return a case with one finding: the symptom is there."""
    case = Case(model.family.id, full_kit(model), ())
    return add_finding(case, read_answer(model, SYMPTOM, "yes"))


def drawn(model: SetModel, case: Case | None, unfolded: str = "") -> str:
    """Return the tree of the symptom as HTML, without its list."""
    element = tree(model, model.checks[SYMPTOM], case, unfolded)
    return html(element).partition("All of it as a list")[0]


def test_chances_are_those_of_the_case(model: SetModel, found: Case) -> None:
    """Each cause is drawn with its posterior in that way, after what was found."""
    sets = cut_sets(model, SYMPTOM)
    now = chances_now(model, sets, found.findings)
    known = calibrated(model, found.findings)
    for (cause, way), chance in now.items():
        assert chance == known.posterior(cause)[1 + list(model.causes[cause].ways).index(way)]
    likeliest = max(
        (each for each in sets if len(each.events) == 1), key=lambda e: now[e.events[0]]
    )
    words = model.causes[likeliest.events[0][0]].title
    picture = drawn(model, found)
    assert words in picture
    assert percent(now[likeliest.events[0]]) in picture
    assert "Drawn with the chances as your case stands" in picture


def test_it_is_cut_and_says_how_much_is_behind(model: SetModel, found: Case) -> None:
    """Six blocks with three causes each are drawn; nothing that is cut goes unsaid."""
    sets = cut_sets(model, SYMPTOM)
    now = chances_now(model, sets, found.findings)
    events = [each.events for each in sets]
    groups = [*groups_of(model, events, now, "")]
    blocks = [group for group in groups if group.gate != "both" and group.leaves]
    assert len(blocks) == BLOCKS
    for group in blocks:
        causes = [leaf for leaf in group.leaves if leaf.chance is not None]
        rest = [leaf for leaf in group.leaves if leaf.chance is None]
        inside = [e for (e, *more) in events if not more
                  and model.blocks[model.causes[e[0]].block].title == group.words]  # fmt: skip
        assert len(causes) == min(CAUSES, len(inside))
        assert [leaf.words for leaf in rest] == (
            [f"and {len(inside) - CAUSES} more: unfold"] if len(inside) > CAUSES else []
        )


def test_it_unfolds(model: SetModel, found: Case) -> None:
    """All blocks, or all causes of one, are drawn when asked for."""
    sets = cut_sets(model, SYMPTOM)
    now = chances_now(model, sets, found.findings)
    events = [each.events for each in sets]
    every = {model.causes[e[0]].block for (e, *more) in events if not more}
    wide = [*groups_of(model, events, now, ALL_BLOCKS)]
    assert {model.blocks[name].title for name in every} <= {group.words for group in wide}
    name = model.causes[max(now, key=lambda event: now[event])[0]].block
    (whole,) = [group for group in groups_of(model, events, now, name)
                if group.words == model.blocks[name].title]  # fmt: skip
    assert all(leaf.chance is not None for leaf in whole.leaves)


def test_gates_are_words(small_model: SetModel) -> None:
    """Without a case the chances are those of a set nothing is known of; gates are named."""
    picture = html(tree(small_model, small_model.checks["supply.dark"]))
    assert "Drawn with the chances of a set nothing is known of" in picture
    assert re.search(r'class="gate"><rect[^>]*></rect><text[^>]*>any one of</text>', picture)
    assert "All of it as a list" in picture


def test_list_has_the_chances_of_the_drawing(model: SetModel, found: Case) -> None:
    """Beside each cause of the list stands its chance now; without a case there is none to tell."""
    check = model.checks[SYMPTOM]
    now = chances_now(model, cut_sets(model, SYMPTOM), found.findings)
    listed = html(tree(model, check, found)).partition("All of it as a list")[2]
    assert "Beside each stands its chance now, as in the drawing." in listed
    cause, way = max(now, key=lambda event: now[event])
    line = listed[listed.index(f"cause/{cause}") :]
    assert f" · now {percent(now[cause, way])}</small>" in line[: line.index("</li>")]
    assert "· now " not in html(tree(model, check))
