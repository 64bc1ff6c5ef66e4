"""What to do now: measure on, act, stop, or sort out findings that do not go together."""

from xml.etree.ElementTree import Element

from web.views.markup import button, h, shows
from web.views.state import Bench, said
from web.views.words import listed, percent

SITS_BADLY_BITS = 0.0  # above it the findings are less likely together than if unrelated


def sentence(bench: Bench) -> str:
    """Return the verdict as one sentence, also read out after each step."""
    step, names = bench.step, bench.model.causes
    leading = next((each for each in step.causes if each.kind != "event"), step.causes[0])
    likely = f"{leading.title}, {percent(leading.probability)}"
    spoken = listed([names[each].title for each in step.verdict.causes[:3]])
    match step.verdict.kind:
        case "act":
            return f"Sure enough to act: {likely}."
        case "not-in-knowledge":
            return f"This points to something the knowledge does not hold: {likely}."
        case "nothing-wrong":
            return "Everything found so far fits a set with nothing wrong."
        case "no-check-left":
            return f"With what you have, no check tells more. Likeliest now: {spoken}."
        case "clash":
            return f"{len(step.clash)} findings cannot all be true. Look at them again."
    if not bench.case.evidence():
        return "Nothing found yet: make the first check, or tick what is wrong."
    return f"Not sure enough to act yet. Likeliest so far: {likely}."


def verdict(bench: Bench) -> Element:
    """Return the banner on top of the bench."""
    kind = bench.step.verdict.kind
    return h(
        "section",
        {"class": f"verdict {kind}", "id": "verdict", "aria-label": "Where you stand"},
        h("p", {"class": "sentence"}, sentence(bench)),
        _acts(bench),
        _clash(bench),
        _conflict(bench),
        _set_aside(bench),
    )


def _acts(bench: Bench) -> Element | None:
    """Return buttons to what to do about the causes the verdict speaks of."""
    rows = [
        button(f"What to do: {bench.model.causes[each].title}", shows("opened-cause", cause=each))
        for each in bench.step.verdict.causes[:3]
    ]
    return h("p", {"class": "row"}, rows) if rows else None


def _clash(bench: Bench) -> Element | None:
    clash = bench.step.clash
    if not clash:
        return None
    rows = [
        h(
            "li",
            None,
            f"{bench.model.checks[each.check].title}: {said(bench.model, each)} ",
            button("Look again", shows("check-title", check=each.check)),
        )
        for each in clash
    ]
    return h(
        "div",
        None,
        h(
            "p",
            None,
            "No cause in the knowledge, nor any set of causes, allows these together. "
            "The figures below leave them out.",
        ),
        h("ul", {"class": "rows"}, rows),
    )


def _conflict(bench: Bench) -> Element | None:
    if bench.step.conflict_bits <= SITS_BADLY_BITS or not bench.step.doubts:
        return None
    doubted, bits = bench.step.doubts[0]
    title = bench.model.checks[doubted.check].title
    return h(
        "p",
        {"class": "conflict"},
        f"The findings sit badly together. Worth doing again: {title} "
        f"({said(bench.model, doubted)}), {bits:.1f} bits at odds with the rest.",
    )


def _set_aside(bench: Bench) -> Element | None:
    if not bench.set_aside:
        return None
    return h(
        "p",
        {"class": "conflict"},
        f"Left out, as this version has no use for it: {listed(bench.set_aside)}.",
    )
