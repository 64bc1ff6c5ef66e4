"""The second screen: tick what is wrong, in an owner's words."""

from collections.abc import Iterable, Mapping
from xml.etree.ElementTree import Element

from engine.diagnosis.case import Finding
from engine.diagnosis.model import CheckText
from web.views.frame import heading, onward, steps, tick
from web.views.markup import h, puts
from web.views.state import Bench, Shown

# What an owner's sentence is about, by the first of these words in it; the rest comes last.
GROUPS = (
    ("What others tell you", ("others", "they say", "anybody heard", "neighbours")),
    ("When you press the button", ("button", "transmi", "keyed", "microphone")),
    ("What you hear", ("hear", "hiss", "voice", "station", "sound", "loudspeaker", "scratch")),
    ("Channels, display and meter", ("channel", "dial", "display", "meter")),
)
REST = "Power, lamps, knobs and plugs"


def symptoms(bench: Bench, shown: Shown) -> list[Element]:
    """Return the screen of symptoms, grouped by what they concern."""
    groups = grouped(bench.model.checks.values())
    found = {each.check: each for each in bench.case.findings}
    lead = "Tick what you have noticed yourself. Leave the rest: what matters is asked later."
    return [
        steps("symptoms"),
        heading("What is wrong?"),
        h("p", {"class": "lead"}, lead),
        _search(shown.filter),
        h("div", None, [_group(title, checks, found) for title, checks in groups.items()]),
        onward("kit"),
    ]


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
    """Return the symptoms under the title of what they are about, titles in a fixed order."""
    groups: dict[str, list[CheckText]] = {title: [] for title, _ in GROUPS}
    groups[REST] = []
    for check in checks:
        if check.kind == "symptom":
            groups[_about(check)].append(check)
    return {title: rows for title, rows in groups.items() if rows}


def _about(check: CheckText) -> str:
    words = f"{check.title} {check.asks}".lower()
    found = (title for title, signs in GROUPS if any(sign in words for sign in signs))
    return next(found, REST)


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
    return h("div", {"data-words": words, "id": f"row-{check.id}"}, inside)


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
