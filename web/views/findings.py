"""What was found so far, each to be changed or withdrawn."""

from xml.etree.ElementTree import Element

from engine.diagnosis.case import Finding
from engine.diagnosis.entry import understood
from engine.diagnosis.judging import in_words, judged
from web.views.leaf_button import leaf_button
from web.views.markup import button, h, puts, shows
from web.views.mending import DONE
from web.views.state import Bench, said


def findings(bench: Bench) -> Element:
    """Return the list of findings, the last one first; those before a repair under it."""
    now = [_row(bench, each) for each in reversed(bench.case.findings)]
    past = [
        part for number in reversed(range(len(bench.case.past))) for part in _past(bench, number)
    ]
    nothing = "Nothing since the repair." if past else "Nothing yet."
    return h(
        "section",
        {"class": "findings", "id": "findings", "aria-labelledby": "findings-title"},
        h("h2", {"id": "findings-title"}, "Found since the repair" if past else "Found so far"),
        h("ol", {"class": "rows"}, now) if now else h("p", None, nothing),
        past,
    )


def _past(bench: Bench, number: int) -> list[Element]:
    """Return a repair, counted from 0, and what had been found before it and since the last one."""
    stretch = bench.case.past[number]
    title = bench.model.causes[stretch.repair.cause].title
    words = f"The set as it was, before “{title}” was {DONE[stretch.repair.how]}"
    rows = [_earlier(bench, number, each) for each in reversed(stretch.findings)]
    return [
        h("h3", {"data-repaired": stretch.repair.cause}, words),
        h("ol", {"class": "rows earlier"}, rows) if rows else h("p", None, "Nothing was found."),
    ]


def _row(bench: Bench, each: Finding) -> Element:
    return h(
        "li",
        {"id": f"finding-{each.check}", "data-finding": each.check},
        _words(bench, each),
        _acts(bench, each, "Change"),
    )


def _earlier(bench: Bench, number: int, each: Finding) -> Element:
    """Return a finding of the set as it was; one that was made again since is history."""
    later = bench.finding(each.check)
    is_last = later in (None, each) and each in latest(bench)
    return h(
        "li",
        {"id": f"finding-{number}-{each.check}", "data-found-before": each.check},
        _words(bench, each),
        _acts(bench, each, "Change" if later else "Check again") if is_last else None,
    )


def latest(bench: Bench) -> tuple[Finding, ...]:
    """Return the last finding of every check that was made, in order of the checks' first."""
    return tuple({each.check: each for each in bench.case.all_findings()}.values())


def _words(bench: Bench, each: Finding) -> Element:
    check = bench.model.checks[each.check]
    words = f"{check.lead_in.removeprefix(check.title)} {told(bench, each)}"
    title = h("b", None, check.title)
    return h("span", None, title, words, _doubt(bench, each), _limit(bench, each))


def _acts(bench: Bench, each: Finding, change: str) -> Element:
    title = bench.model.checks[each.check].title
    return h(
        "span",
        {"class": "row"},
        _tree(bench, each),
        button(
            change,
            {"aria-label": f"{change}: {title}", **shows("check-title", check=each.check)},
        ),
        button(
            "Withdraw",
            {"aria-label": f"Withdraw: {title}", **puts("withdraw", check=each.check)},
        ),
    )


def _tree(bench: Bench, each: Finding) -> Element | None:
    """Return the way to what can bring a symptom about, drawn; none while the kind is open."""
    if bench.step.kinds or each.check not in bench.model.cut_sets:
        return None
    return leaf_button("What brings it about", bench.model.family.id, f"check/{each.check}")


def told(bench: Bench, each: Finding) -> str:
    """Word what was found, and what was typed where it had to be worked out.

    `40 Vpp` reads `4 W (40 Vpp across 50 ohm is 4.00 W)`.
    """
    words = understood(bench.model, each)
    return f"{said(bench.model, each)}{f' ({words})' if words else ''}"


def limit_words(bench: Bench, each: Finding) -> str:
    """Word what the limit of the family's rules says of a finding; empty where there is none."""
    judgement = judged(bench.model, each)
    return in_words(judgement) if judgement else ""


def _limit(bench: Bench, each: Finding) -> Element | None:
    words = limit_words(bench, each)
    return h("small", {"class": "limit"}, f" {words}.") if words else None


def _doubt(bench: Bench, each: Finding) -> Element | None:
    if each in bench.step.clash:
        return h("em", {"class": "doubt"}, " cannot be true beside the others")
    if any(doubted == each for doubted, _bits in bench.step.doubts):
        return h("em", {"class": "doubt"}, " sits badly with the rest")
    return None
