"""Rules on how the states of a signal or cause show in a check."""

from collections.abc import Iterator

from engine.errors import Problem
from engine.knowledge.draft import Page
from engine.knowledge.naming import listed, unknown
from engine.knowledge.schema import Block, Check, Normal
from engine.knowledge.states import shows, states_in
from engine.knowledge.wording import Path

RAREST = 1e-6  # nobody knows of anything seldomer at a bench; products of less would vanish
CANNOT = "cannot-check"  # what a person answers who cannot do the check; never an outcome


def answer_problems(page: Page[Block]) -> Iterator[Problem]:
    """Yield what is wrong with the answers of the checks of a block."""
    known = states_in(page.model)
    for name, check in page.model.checks.items():
        path, looked_at = ("checks", name, "looks-at"), check.looks_at
        expected = "a signal or cause of this block"
        yield from unknown(page.source, path, looked_at, known, expected)
        if looked_at in known:
            yield from _covered(page, name, check, known[looked_at])
        yield from _figures(page, name, check)
        yield from _span(page, name, check)
        yield from _asked(page, name, check)


def _covered(
    page: Page[Block], name: str, check: Check, states: tuple[str, ...]
) -> Iterator[Problem]:
    """Yield states that show in no way, those that do not exist, and a check that tells nothing."""
    form, stated = _stated(check)
    for below, state in stated:
        expected = f"a state of '{check.looks_at}'"
        yield from unknown(page.source, ("checks", name, *below), state, states, expected)
    lacking = [state for state in states if state not in {state for _, state in stated}]
    path, every = ("checks", name, form), f"every state of '{check.looks_at}'"
    if lacking:
        remedy = f"Add {', '.join(lacking)}: each state shows in some way."
        yield page.source.problem(path, f"nothing for {', '.join(lacking)}", every, remedy)
    elif len({shows(check, state) for state in states}) == 1:
        remedy = "Tell at least two states apart, or delete the check."
        found, expected = "the same for every state", "a check that tells states apart"
        yield page.source.problem(path, found, expected, remedy)


def _stated(check: Check) -> tuple[str, list[tuple[tuple[str, ...], str]]]:
    """Return the key that holds the answers, and each state named there with its path."""
    if check.yes:
        return "yes", [(("yes", state), state) for state in check.yes]
    if check.reads:
        return "reads", [(("reads", state), state) for state in check.reads]
    return "outcomes", [
        (("outcomes", outcome_name, "means"), state)
        for outcome_name, outcome in check.outcomes.items()
        for state in outcome.means
    ]


def _figures(page: Page[Block], name: str, check: Check) -> Iterator[Problem]:
    """Yield chances that are neither never nor always, and yet too near to it to be known."""
    chances: dict[Path, float] = {("yes", state): p for state, p in check.yes.items()}
    chances[("slip",)] = check.slip
    if check.wrong is not None:
        chances[("wrong",)] = check.wrong
    for below, p in chances.items():
        if 0.0 < p < RAREST or 1.0 - RAREST < p < 1.0:
            expected = f"0, 1, or {RAREST:f} to {1.0 - RAREST:f}"
            remedy = "Write 0 or 1 only where nothing else can be seen: it rules states out."
            path = ("checks", name, *below)
            yield page.source.problem(path, f"{p:.12g}", expected, remedy)


def _span(page: Page[Block], name: str, check: Check) -> Iterator[Problem]:
    """Yield readings outside of the span: a right one would be refused as a slip."""
    if check.span is None:
        return
    low, high = check.span
    if low >= high:
        remedy = "Write the lower end first."
        path, found = ("checks", name, "span"), listed((f"{low:g}", f"{high:g}"))
        yield page.source.problem(path, found, "[lower, higher]", remedy)
        return
    for state, reading in check.reads.items():
        ends = (reading.typical,) if isinstance(reading, Normal) else (reading.low, reading.high)
        for end in ends:
            if not low <= end <= high:
                below = ("checks", name, "reads", state)
                remedy = "Widen the span, or correct the reading."
                expected = f"{low:g} to {high:g}, the span"
                yield page.source.problem(below, f"{end:g}", expected, remedy)


def _asked(page: Page[Block], name: str, check: Check) -> Iterator[Problem]:
    if not check.asks.endswith("?"):
        path, found = ("checks", name, "asks"), f"'...{check.asks[-12:]}'"
        remedy = "Put it as a question to the person at the set."
        yield page.source.problem(path, found, "a question that ends in '?'", remedy)
    if CANNOT in check.outcomes:
        below = ("checks", name, "outcomes", CANNOT)
        remedy = "Rename it; everybody may answer 'cannot check' to any check."
        yield page.source.problem(below, f"'{CANNOT}'", "another name", remedy)
