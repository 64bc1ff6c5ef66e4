"""Parts of the record about the work: causes at each stage, repairs, before and after."""

from engine.diagnosis.advising.explaining import Explanation
from engine.diagnosis.advising.steps import mendable
from engine.diagnosis.case import Case, Finding
from engine.diagnosis.repairing.again import mended
from engine.diagnosis.repairing.standings import Standing, standings
from web.views.mending import DONE, was_needed
from web.views.part import Part, Row
from web.views.reasons import stories
from web.views.state import Bench, said
from web.views.words import KINDS, percent

LEADING, MOST = 3, 9  # causes that every stage brings, and all that are shown
AT = {"complaint": "At the complaint", "repair": "Before repair {}", "now": "Now"}


def causes_part(bench: Bench) -> Part:
    """Return the causes that led at any stage or were put right, with their chance at each."""
    stages = standings(bench.model, bench.case)
    repairs = [stretch.repair.cause for stretch in bench.case.past]
    chances = [{each.id: each.probability for each in stage.causes} for stage in stages]
    rows = tuple(
        Row(
            bench.model.causes[name].title,
            tuple(_chance(stage[name], name in repairs) for stage in chances),
            _place(bench, name),
        )
        for name in _named(stages, repairs)
    )
    return Part("Ranked causes, stage by stage", (), ("Cause", *_heads(stages)), rows, "causes")


def _chance(chance: float, is_repaired: bool) -> str:
    """Word a chance; 0 is that of what was put right, from then on."""
    return "put right" if is_repaired and chance == 0.0 else percent(chance)


def _heads(stages: tuple[Standing, ...]) -> list[str]:
    numbers = iter(range(1, len(stages) + 1))
    return [
        AT[stage.point].format(next(numbers)) if stage.repair else AT[stage.point]
        for stage in stages
    ]


def _named(stages: tuple[Standing, ...], repairs: list[str]) -> list[str]:
    """Return the causes to name: what was put right, then who leads now, then who led before."""
    few = MOST if len(stages) == 1 else LEADING
    led = [each.id for stage in reversed(stages) for each in mendable(stage.causes)[:few]]
    return list(dict.fromkeys([*repairs, *led]))[: max(MOST, len(repairs))]


def _place(bench: Bench, name: str) -> str:
    cause = bench.model.causes[name]
    return f"{bench.model.blocks[cause.block].title}, {KINDS[cause.kind]}"


def stories_part(bench: Bench, explanations: tuple[Explanation, ...]) -> Part | None:
    """Return the causes that together explain what was found of the set as it is."""
    lines = tuple(f"{words}: {percent(chance)}" for words, chance in stories(bench, explanations))
    title = "Causes that together explain everything"
    return Part(title, lines, kind="stories") if lines else None


def work_part(bench: Bench) -> Part | None:
    """Return what was put right, with what was thought of it then and is by now."""
    rows = tuple(
        Row(
            bench.model.causes[each.repair.cause].title,
            (
                DONE[each.repair.how],
                bench.when(number),
                percent(each.then),
                percent(each.now),
                was_needed(bench, each),
            ),
        )
        for number, each in enumerate(mended(bench.model, bench.case))
    )
    heads = ("Put right", "How", "When", "Thought wrong then", "By now", "So")
    return Part("Work done", (), heads, rows, "work") if rows else None


def repeated_part(bench: Bench) -> Part | None:
    """Return the checks that were made both before and after a repair, with every reading."""
    stretches = _stretches(bench.case)
    if len(stretches) == 1:
        return None
    found = [{each.check: each for each in stretch} for stretch in stretches]
    checks = dict.fromkeys(each.check for stretch in stretches for each in stretch)
    rows = tuple(
        Row(
            bench.model.checks[check].title,
            tuple(said(bench.model, stage[check]) if check in stage else "" for stage in found),
            bench.model.checks[check].right,
        )
        for check in checks
        if sum(check in stage for stage in found) > 1
    )
    heads = ("Check", "Before", *_after(len(stretches) - 1))
    return Part("Before and after", (), heads, rows, "repeated") if rows else None


def _after(repairs: int) -> list[str]:
    if repairs == 1:
        return ["After"]
    return [f"After repair {number}" for number in range(1, repairs + 1)]


def _stretches(case: Case) -> list[tuple[Finding, ...]]:
    return [*(stretch.findings for stretch in case.past), case.findings]
