"""What somebody sees who has never done this: when to stop, what comes first, plain words."""

import re
from dataclasses import replace
from html import unescape

import pytest

from engine.diagnosis.advising.explaining import Explanation
from engine.diagnosis.case import Case, Kit, add_finding
from engine.diagnosis.entry import read_answer
from engine.diagnosis.model import SetModel
from web.answering import bench_of
from web.replaying import Replayed
from web.views.bench import bench_screen
from web.views.ending import ALL_THE_SAME, ending, ending_words
from web.views.home import home
from web.views.markup import html
from web.views.page import later
from web.views.reasons import complains, joint
from web.views.record.sheet import paper
from web.views.state import Bench, Shown
from web.views.symptoms import AREAS, grouped, symptoms, within
from web.views.verdict import verdict

EYES = Kit(frozenset(), "on")
ALL_DONE = {"supply.dark": "yes", "sender.weak": "nothing", "past.fell": "no"}


def found(model: SetModel, said: dict[str, str], kit: Kit = EYES) -> Bench:
    """Return the case after these answers."""
    case = Case(model.family.id, kit)
    for check, answer in said.items():
        case = add_finding(case, read_answer(model, check, answer))
    return bench_of(model, Replayed(case))


def sure(bench: Bench, cause: str) -> Bench:
    """Return the case with a cause that is sure enough to act on."""
    act = replace(bench.step.verdict, kind="act", causes=(cause,))
    causes = tuple(
        replace(each, probability=0.95) if each.id == cause else each for each in bench.step.causes
    )
    return replace(bench, step=replace(bench.step, verdict=act, causes=causes))


def proved_first(model: SetModel, cause: str, *checks: str) -> SetModel:
    """Return the tiny set, with checks that come before a cause is acted on."""
    text = replace(model.causes[cause], prove_first=checks)
    return replace(model, causes={**model.causes, cause: text})


def plain(markup: str) -> str:
    """Return what can be read without unfolding anything."""
    return re.sub(r"<details.*?</details>", "", markup, flags=re.DOTALL)


def test_the_end_says_what_would_help(small_model: SetModel) -> None:
    """Nothing more to ask with bare eyes: no repair, what to fetch, the record to take along."""
    part = ending(found(small_model, ALL_DONE))
    assert part is not None
    shown = html(part)
    assert "You have done what can be done with this kit." in shown
    assert "What would help:" in shown
    assert "the lid off, by somebody competent" in shown
    assert "Take the record along" in shown
    assert "What to do" not in shown


def test_there_is_no_end_while_something_can_be_asked(small_model: SetModel) -> None:
    """Nor before anything was found, nor when it is time to act."""
    dark = found(small_model, {"supply.dark": "yes"})
    assert ending(dark) is None
    assert ending(found(small_model, {})) is None
    assert ending(sure(found(small_model, ALL_DONE), "supply.fuse-joint")) is None


def test_the_end_says_what_is_proved_first(small_model: SetModel) -> None:
    """Where the likeliest cause must not be acted on unproved, on screen and on paper."""
    leading = found(small_model, ALL_DONE).step.causes[0].id
    bench = found(proved_first(small_model, leading, "sender.power"), ALL_DONE)
    words = (
        f"Leave “{small_model.causes[leading].title}” as it is until then: whoever goes on proves "
        f"“{small_model.checks['sender.power'].title}” before anything is done about it."
    )
    assert words in unescape(html(ending(bench)))
    assert words in ending_words(bench)
    assert words not in unescape(html(ending(found(small_model, ALL_DONE))))


def test_the_end_comes_to_the_bench_and_into_the_record(small_model: SetModel) -> None:
    """A moment after the verdict on screen; at once on paper."""
    bench = found(small_model, ALL_DONE)
    parts = later(bench, Shown(screen="bench"), "check", "0")
    assert "You have done what can be done" in parts["ending"]
    assert 'data-later="ending"' in html(verdict(bench))
    assert parts["all-the-same"] == ALL_THE_SAME
    going_on = found(small_model, {"supply.dark": "yes"}, Kit(frozenset({"multimeter"}), "off"))
    assert later(going_on, Shown(screen="bench"), "check", "0")["all-the-same"] == ""
    assert "You have done what can be done" in html(paper(bench, (), "0"))


def test_no_repair_is_advised_before_it_is_sure(small_model: SetModel) -> None:
    """What would be done is folded away, and the record does not advise it."""
    bench = found(small_model, {"supply.dark": "yes"})
    cause = bench.step.causes[0].id
    act = small_model.causes[cause].act
    assert bench.step.verdict.kind == "measure"
    shown = html(*bench_screen(bench, Shown(cause=cause)))
    assert act not in plain(shown)
    assert act in shown
    assert "not sure enough yet" in shown
    assert act not in html(paper(bench, (), "0"))
    certain = html(*bench_screen(sure(bench, cause), Shown(cause=cause)))
    assert act in plain(certain)


def test_what_has_to_be_proved_stands_before_what_to_do(small_model: SetModel) -> None:
    """The way to act is the check itself, until it was made."""
    cause = "supply.fuse-joint"
    model = proved_first(small_model, cause, "supply.rail-volts")
    before = html(verdict(sure(found(model, {"supply.dark": "yes"}), cause)))
    assert "First check: Volts on the rail" in before
    assert "What to do:" not in before
    said = {"supply.dark": "yes", "supply.rail-volts": "0 V"}
    after = html(verdict(sure(found(model, said), cause)))
    assert "First check" not in after
    assert "What to do: " in after


def test_bits_and_decibans_are_for_the_curious(small_model: SetModel) -> None:
    """They are folded away; what is open speaks in words."""
    bench = found(
        small_model, {"supply.dark": "yes"}, Kit(frozenset(small_model.instruments), "off")
    )
    screen = html(*bench_screen(bench, Shown(cause="supply.fuse-joint")))
    why = later(bench, Shown(screen="bench", cause="supply.fuse-joint"), "check", "0")["why"]
    for markup in (screen, why):
        open_ = re.sub(r"<[^>]+>", " ", plain(markup))
        assert not re.search(r"\bbits?\b|deciban", open_), open_
    assert "For the curious" in screen
    assert "For the curious" in why


def test_figures_of_causes_need_not_add_up(small_model: SetModel) -> None:
    """That is said beside them."""
    shown = html(*bench_screen(found(small_model, {}), Shown()))
    assert "Several can be true at once, so the figures need not add up to 100." in shown


def test_nothing_wrong_explains_no_complaint(small_model: SetModel) -> None:
    """After a symptom that story is left out; without one it is told as what it is."""
    stories = (Explanation((), 0.4), Explanation((("supply.fuse-joint", "present"),), 0.3))
    dark, quiet = (
        found(small_model, {"supply.dark": "yes"}),
        found(small_model, {"past.fell": "no"}),
    )
    assert complains(dark)
    assert not complains(quiet)
    assert "Nothing wrong" not in html(joint(dark, stories))
    assert "Nothing wrong, as far as the knowledge goes" in html(joint(quiet, stories))


def test_findings_in_the_record_bring_their_question(small_model: SetModel) -> None:
    """A title alone may be misread."""
    shown = html(paper(found(small_model, {"supply.dark": "yes"}), (), "0"))
    check = small_model.checks["supply.dark"]
    assert f"<b>{check.title}</b><small> {check.asks}</small>" in shown


def test_signs_that_take_more_than_eyes_are_folded_away(small_model: SetModel) -> None:
    """Nobody has to take the lid off or to measure to begin; what is seen is said plainly."""
    signs = (
        "Not sure? 40 channels, FM only: go on.",
        "Lid on: it has one knob.",
        "Lid on: a counter at the dummy load reads 27.6 MHz.",
        "Lid off: Two crystals.",
    )
    shown = html(*home([replace(small_model.family, recognise=signs)], []))
    assert "It has one knob." in plain(shown)
    assert "<li>40 channels, FM only.</li>" in plain(shown)
    assert "Two crystals." not in plain(shown)
    assert "a counter" not in plain(shown)
    assert "To be surer, with instruments or the lid off" in shown


def titles(model: SetModel) -> dict[str, str]:
    """Return under which heading each symptom stands."""
    groups = grouped(model.checks.values())
    return {check.id: title for title, rows in groups.items() for check in rows}


@pytest.mark.parametrize(
    ("check", "title"),
    [
        ("on-off-switch.signs-of-life", "Is there life in it?"),
        ("operating.hears-nobody", "What you hear"),
        ("operating.button-does-nothing", "When you press the button"),
        ("operating.reach-short", "What others tell you, and how strong you are"),
        ("channel-display.display-seen", "Channels, display and meter"),
    ],
)
def test_symptoms_stand_where_they_are_looked_for(model: SetModel, check: str, title: str) -> None:
    """By what their titles are about."""
    assert titles(model)[check] == title


def test_the_plainest_symptom_comes_first(model: SetModel) -> None:
    """Whether it lives at all, whether the button does anything, whether anybody is heard."""
    groups = grouped(model.checks.values())
    first = [rows[0].id for rows in groups.values()][:4]
    assert first[:2] == ["on-off-switch.signs-of-life", "operating.button-does-nothing"]
    assert first[3] == "operating.hears-nobody"


def test_three_entries_narrow_the_list(model: SetModel) -> None:
    """Each leaves out much, together they hold everything, and what is ticked stays in sight."""
    groups = grouped(model.checks.values())
    shown = {
        area: {row.id for _, rows in within(groups, area, {}) for row in rows} for area in AREAS
    }
    assert set.union(*shown.values()) == set(model.symptoms)
    assert len(shown["dead"]) <= 10
    assert "on-off-switch.signs-of-life" in shown["dead"]
    assert "operating.hears-nobody" in shown["hear"] - shown["send"]
    hears = found(model, {"operating.hears-nobody": "yes"}).case.findings[0]
    kept = within(groups, "dead", {hears.check: hears})
    assert "operating.hears-nobody" in {row.id for _, rows in kept for row in rows}


@pytest.mark.parametrize(
    ("word", "check"),
    [
        ("dead", "on-off-switch.signs-of-life"),
        ("no sound", "operating.hears-nobody"),
        ("mute", "operating.silent-with-squelch-open"),
        ("silent", "operating.hears-nobody"),
        ("lights", "lamps.panel-lit"),
        ("antenna", "operating.swr-reads-high"),
        ("mic", "operating.button-does-nothing"),
    ],
)
def test_other_words_find_it_too(model: SetModel, word: str, check: str) -> None:
    """As the page looks for them: every word somewhere in the text of the row."""
    shown = html(*symptoms(found(model, {}), Shown()))
    (words,) = re.findall(rf'data-words="([^"]*)" id="row-{re.escape(check)}"', shown)
    assert all(one in words for one in word.split())


def test_at_the_end_an_open_set_may_be_tried_on_what_is_likelier_than_not(
    small_model: SetModel,
) -> None:
    """With the lid off, on screen with a button and on paper; never with the lid on."""
    said = {**ALL_DONE, "supply.dark": "no", "sender.power": "20 mW"}
    open_ = found(small_model, said, Kit(frozenset(), "off"))
    leading = open_.step.causes[0]
    assert 0.5 < leading.probability < 0.9
    words = f"“{leading.title}” is likelier than not, {round(100 * leading.probability)} %."
    part = ending(open_)
    assert part is not None
    assert words in unescape(html(part))
    assert f"What to do: {leading.title}" in unescape(html(part))
    assert any(line.startswith(words) for line in ending_words(open_))
    shut = ending(found(small_model, said))
    assert shut is not None
    assert "likelier than not" not in html(shut)
