"""What to do now: measure on, act, stop, or sort out findings that do not go together."""

from xml.etree.ElementTree import Element

from engine.diagnosis.repairing.again import has_cured
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
    if has_cured(bench.model, bench.case, step):
        title = names[bench.case.past[-1].repair.cause].title
        left = f"no other cause is likelier than {percent(leading.probability)}"
        return f"The last repair did it: {title}; {left}. Prove the set before it goes back."
    match step.verdict.kind:
        case "confirm":
            return f"Nearly sure: {likely}. One more check is worth it, to confirm or clear it."
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
    if bench.case.past and not bench.case.evidence():
        title = names[bench.case.past[-1].repair.cause].title
        return f"Put right: {title}. Check again what it hangs on, to see whether that was it."
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
        h("div", {"data-later": "ending", "id": "ending"}),
        _clash(bench),
        _conflict(bench),
        _set_aside(bench),
    )


def _acts(bench: Bench) -> Element | None:
    """Return buttons to what to do, once that is sure; before it, to what has to be proved."""
    rows = [row for cause in to_act_on(bench)[:3] for row in _act(bench, cause)]
    return h("p", {"class": "row"}, rows) if rows else None


def _act(bench: Bench, cause: str) -> list[Element]:
    title, first = bench.model.causes[cause].title, unproved(bench, cause)
    if not first:
        return [button(f"What to do: {title}", shows("opened-cause", cause=cause))]
    return [
        h("span", None, f"Before anything is done about “{title}”:"),
        *[
            button(
                f"First check: {bench.model.checks[each].title}", shows("check-title", check=each)
            )
            for each in first
        ],
    ]


def to_act_on(bench: Bench) -> tuple[str, ...]:
    """Return the causes that are sure enough to act on."""
    verdict = bench.step.verdict
    return verdict.causes if verdict.kind in ("act", "not-in-knowledge") else ()


def unproved(bench: Bench, cause: str) -> list[str]:
    """Return the checks that have to be made before anybody acts on a cause, and were not."""
    made = {finding.check for finding in bench.standing if finding.is_evidence}
    first = bench.model.causes[cause].prove_first
    return [each for each in first if each not in made and each in bench.model.checks]


def _clash(bench: Bench) -> Element | None:
    clash = bench.step.clash
    if not clash:
        return None
    rows = [
        h(
            "li",
            None,
            f"{bench.model.checks[each.check].lead_in} {said(bench.model, each)} ",
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
    doubted, _bits = bench.step.doubts[0]
    title = bench.model.checks[doubted.check].title
    return h(
        "p",
        {"class": "conflict"},
        f"The findings sit badly together. Worth doing again: {title} "
        f"({said(bench.model, doubted)}).",
    )


def _set_aside(bench: Bench) -> Element | None:
    if not bench.set_aside:
        return None
    return h(
        "p",
        {"class": "conflict"},
        f"Left out, as this version has no use for it: {listed(bench.set_aside)}.",
    )
