"""What our own closed cases show: counts of causes, and what they would do to the priors."""

from collections.abc import Mapping
from typing import Any
from xml.etree.ElementTree import Element

from engine.diagnosis.model import SetModel
from engine.diagnosis.sharpening import EQUIVALENT_SETS, OwnCounts, new_priors
from web.views.frame import heading, steps
from web.views.markup import button, h, shows
from web.views.state import Shown
from web.views.words import percent

Row = tuple[str, str, int, float, float]  # cause, title, times, prior before and after
ABOUT = (
    "Every case closed here with its cause confirmed, or with nothing wrong, counts as one set. "
    "They can change how common each cause is taken to be. What the knowledge says of that weighs "
    f"as much as {EQUIVALENT_SETS} sets, an estimate: once as many of our own are counted, both "
    f"weigh the same. The sum is (chance before × {EQUIVALENT_SETS} + times confirmed) / "
    f"({EQUIVALENT_SETS} + sets counted)."
)
BEWARE = (
    "Sets that come to a bench are not all sets, and what one bench sees is not what another does: "
    "this tells what is common among the sets of this club. It is off until you turn it on, "
    "counts nothing in by itself, and is marked on every screen and in the record."
)
SKIPPED = "Not counted: cases whose kind of set was never settled, and those not confirmed."


def counts_screen(
    shown: Shown, model: SetModel | None, titles: Mapping[str, str], has_case: bool
) -> list[Element | None]:
    """Return the screen about our own counts; `model` is the kind of set on show, if any."""
    now = shown.counts.get("now", {})
    return [
        steps("shelf") if has_case else None,
        heading("What our own cases show"),
        h("p", {"class": "lead"}, ABOUT),
        h("p", None, BEWARE),
        _switch(shown.counts),
        _families(now, shown.family or "", titles),
        _table(model, read_counts_of(now, model)) if model else None,
        h("p", {"class": "hint"}, SKIPPED),
        h(
            "p",
            {"class": "row"},
            _act("Save these counts as a file", "save-counts", not now),
            _act("Begin to count anew", "reset-counts", not now and not shown.counts.get("on")),
            button("Back to the cases", shows("title", screen="shelf")),
        ),
    ]


def read_counts_of(now: Mapping[str, Any], model: SetModel | None) -> OwnCounts:
    """Return the counts of one kind of set."""
    row = now.get(model.family.id) if model else None
    return OwnCounts(row["sets"], tuple(sorted(row["times"].items()))) if row else OwnCounts(0, ())


def rows_of(model: SetModel, counts: OwnCounts) -> list[Row]:
    """Return every cause with its prior before and after, those confirmed most often first."""
    times, after = dict(counts.times), new_priors(model, counts)
    rows = [
        (name, model.causes[name].title, times.get(name, 0), model.causes[name].prior, prior)
        for name, prior in after.items()
    ]
    return sorted(rows, key=lambda row: (-row[2], -row[3], row[0]))


def _switch(counts: Mapping[str, Any]) -> Element:
    """Return the switch, and whether it is on."""
    on, now = counts.get("on"), counts.get("now", {})
    if not on:
        words = "Off: each cause is taken to be as common as the knowledge says."
        acts = [_act("Count our own cases in", "count-in", not now, "count-in")]
    else:
        number = sum(each["sets"] for each in on["families"].values())
        cases = "one closed case" if number == 1 else f"{number} closed cases"
        words = f"On, with {cases}, counted {on['at'][:16].replace('T', ' ')}."
        acts = [_act("Leave our own cases out", "count-out", False, "count-out")]
        if on["families"] != now and now:
            acts.append(_act("Count again: cases were closed since", "count-in", False, "count-in"))
    return h(
        "section",
        {"class": "card", "id": "switch"},
        h("h2", None, "Our own cases in the figures"),
        h("p", {"id": "switch-words"}, words),
        h("p", {"class": "row"}, acts),
    )


def _act(words: str, do: str, is_off: bool, name: str | None = None) -> Element:
    return button(words, {"id": name or do, "data-act": "shelf", "data-do": do, "disabled": is_off})


def _families(now: Mapping[str, Any], family: str, titles: Mapping[str, str]) -> Element:
    if not now:
        return h("p", None, "No case was closed with its cause confirmed yet.")
    rows = [
        button(
            f"{titles.get(name, name)}: {each['sets']}",
            {
                "id": f"counts-{name}",
                "aria-pressed": "true" if name == family else "false",
                **shows(f"counts-{name}", family=name),
            },
        )
        for name, each in sorted(now.items())
    ]
    return h("p", {"class": "row", "role": "group", "aria-label": "Sets counted, by kind"}, rows)


def _table(model: SetModel, counts: OwnCounts) -> Element:
    """Return the causes confirmed, and folded away all others, with both priors."""
    rows = rows_of(model, counts)
    confirmed = [row for row in rows if row[2]]
    others = [row for row in rows if not row[2]]
    sets = "1 set" if counts.sets == 1 else f"{counts.sets} sets"
    return h(
        "section",
        {"class": "card deciding"},
        h("h2", None, f"{model.family.title}: {sets}"),
        _rows("Confirmed causes", confirmed) if confirmed else h("p", None, "No cause confirmed."),
        h(
            "details",
            {"id": "unconfirmed"},
            h("summary", None, f"{len(others)} causes that were never confirmed"),
            _rows("Causes never confirmed", others),
        ),
    )


def _rows(caption: str, rows: list[Row]) -> Element:
    heads = [h("th", {"scope": "col"}, each) for each in ("Cause", "Times", "Before", "After")]
    body = [
        h(
            "tr",
            None,
            h("th", {"scope": "row"}, title),
            h("td", None, f"{times}"),
            h("td", {"class": "figure"}, percent(before)),
            h("td", {"class": "figure"}, percent(after)),
        )
        for _, title, times, before, after in rows
    ]
    table = (h("caption", None, caption), h("thead", None, h("tr", None, heads)))
    return h("table", None, *table, h("tbody", None, body))
