"""The second screen: tick what is wrong, in an owner's words."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from xml.etree.ElementTree import Element

from engine.diagnosis.case import Finding
from engine.diagnosis.model import CheckText
from web.views.desk.button import desk_button
from web.views.frame import heading, onward, steps, tick
from web.views.markup import button, h, puts, shows
from web.views.own.words import own_words
from web.views.state import Bench, Shown
from web.views.synonyms import synonyms


@dataclass(frozen=True, slots=True)
class Group:
    """What a symptom is about, told by the first of the signs in its title."""

    title: str
    areas: tuple[str, ...]
    signs: tuple[str, ...]


AREAS = {
    "dead": ("It is dead", "no light, no sound, or a fuse has gone"),
    "send": ("Nobody hears me", "or badly, or in the wrong place"),
    "hear": ("I hear nobody", "or badly, or only noise"),
}
OTHERS = "told|heard on|heard only|heard in|heard well|find us|hears us|carrier|the voice|trace"
STRENGTH = "as high|as low|as strong|power|television|swr"
SOUND = "hears|hiss|voice|station|sound|loudspeaker|hum|growl|squelch|volume|break in|loud"
GROUPS = tuple(
    Group(title, tuple(areas.split()), tuple(signs.split("|")))
    for title, areas, signs in (
        ("Is there life in it?", "dead", "sign of life|go off|fuse|panel|dim|hot to touch|lights"),
        (
            "When you press the button",
            "send",
            "button|keyed|transmit|pressed|rocked|lead is moved",
        ),
        ("What others tell you, and how strong you are", "send", f"{OTHERS}|{STRENGTH}"),
        ("What you hear", "hear", f"{SOUND}|aerial plug"),
        ("Channels, display and meter", "send hear", "channel|dial|display|meter"),
        ("When it comes and goes", "send hear", "comes and goes|comes or goes"),
    )
)
REST = Group("Anything else", tuple(AREAS), ())
EVERYWHERE = tuple(group.title for group in (*GROUPS, REST))


def symptoms(bench: Bench, shown: Shown) -> list[Element]:
    """Return the screen of symptoms, grouped by what they concern."""
    groups = grouped(bench.model.checks.values())
    found = {each.check: each for each in bench.standing}
    have = bench.case.kit.instruments
    lead = "Tick what you have noticed yourself. Leave the rest: what matters is asked later."
    return [
        steps("symptoms"),
        heading("What is wrong?"),
        h("p", {"class": "lead"}, lead),
        own_words(bench.model, shown.words or bench.letters.message, found, have),
        _areas(shown.area),
        _search(shown.filter),
        h("p", {"data-nothing": True, "hidden": True}, NOTHING),
        h("div", None, [_group(*each, found) for each in within(groups, shown.area, found)]),
        h("p", {"class": "row"}, desk_button("symptoms-to-desk")),
        onward("kit"),
    ]


NOTHING = (
    "Nothing is filed under these words. Try one other word, or clear the field and choose one of "
    "the three above; you can also go on and be asked."
)


def _areas(area: str) -> Element:
    """Return the three big entries that narrow the list, and the way back to all of it."""
    rows = [
        button(
            title,
            {"class": "area", "id": f"area-{name}", "aria-pressed": str(name == area).lower()}
            | shows(f"area-{name}", area="" if name == area else name, filter=""),
            h("small", None, hint),
        )
        for name, (title, hint) in AREAS.items()
    ]
    every = button("Show everything", {"id": "area-all", **shows("area-all", area="", filter="")})
    return h(
        "div",
        {"class": "areas", "role": "group", "aria-label": "What it is about"},
        rows,
        every if area else None,
    )


def _search(typed: str) -> Element:
    field = {
        "type": "search",
        "id": "filter",
        "data-filter": "symptoms",
        "value": typed,
        "autocomplete": "off",
    }
    label = h("label", {"for": "filter"}, "Look for a word ")
    return h("p", {"class": "search"}, label, h("input", field))


def grouped(checks: Iterable[CheckText]) -> dict[str, list[CheckText]]:
    """Return the symptoms under the title of what they are about, in the order of the signs."""
    groups: dict[str, list[tuple[int, CheckText]]] = {title: [] for title in EVERYWHERE}
    for check in checks:
        if check.kind == "symptom":
            group, place = _about(check)
            groups[group.title].append((place, check))
    by_place = {title: sorted(rows, key=lambda row: row[0]) for title, rows in groups.items()}
    return {title: [check for _, check in rows] for title, rows in by_place.items() if rows}


def within(
    groups: Mapping[str, list[CheckText]], area: str, found: Mapping[str, Finding]
) -> list[tuple[str, list[CheckText]]]:
    """Return the groups of an area, and of the others what is ticked; all without an area."""
    areas = {group.title: group.areas for group in (*GROUPS, REST)}
    narrowed = [
        (title, [row for row in rows if area in ("", *areas[title]) or row.id in found])
        for title, rows in groups.items()
    ]
    return [(title, rows) for title, rows in narrowed if rows]


def _about(check: CheckText) -> tuple[Group, int]:
    """Return the group of a symptom, and which of its signs stands in the title."""
    title = check.title.lower()
    found = (
        (group, place)
        for group in GROUPS
        for place, sign in enumerate(group.signs)
        if sign in title
    )
    return next(found, (REST, 0))


def is_ticked(check: CheckText) -> bool:
    """Say whether a yes tells of something wrong, so that a tick will do.

    Other symptoms ("does the lamp light?") need their answers spelt out.
    """
    return "yes" in check.outcomes and check.channel.rows[0][0] < 0.5


def _group(title: str, checks: list[CheckText], found: Mapping[str, Finding]) -> Element:
    rows = [_row(check, found.get(check.id)) for check in checks]
    return h(
        "fieldset",
        {"data-group": True},
        h("legend", None, title),
        h("div", {"class": "columns"}, rows),
    )


def _row(check: CheckText, finding: Finding | None) -> Element:
    words = f"{check.title} {check.asks} {check.plain}".lower()
    inside = _tick(check, finding) if is_ticked(check) else _choice(check, finding)
    return h("div", {"data-words": f"{words} {synonyms(words)}", "id": f"row-{check.id}"}, inside)


def _tick(check: CheckText, finding: Finding | None) -> Element:
    return tick(
        f"tick-{check.id}",
        finding is not None and finding.outcome == "yes",
        (check.title, check.asks),
        (
            {"do": "answer", "check": check.id, "said": "yes"},
            {"do": "withdraw", "check": check.id},
        ),
    )


def _choice(check: CheckText, finding: Finding | None) -> Element:
    """Return a symptom whose answers are spelt out."""
    chosen = finding.outcome if finding else None
    options = [
        h("option", {"value": outcome, "selected": outcome == chosen}, title)
        for outcome, title in {"": "not noticed", **check.outcomes}.items()
    ]
    name = f"pick-{check.id}"
    label = h("label", {"for": name}, h("b", None, check.title), h("small", None, check.asks))
    select = h("select", {"name": "said", "id": name, "data-submit": True}, options)
    return h("form", {"class": "choice", **puts("answer", check=check.id)}, label, select)
