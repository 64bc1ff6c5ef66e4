"""What the knowledge base holds, as plain records: all a script needs to write a case."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from engine.diagnosis.making.building import unlisted_name, unlisted_signals
from engine.diagnosis.making.cause_texts import unlisted_title
from engine.diagnosis.making.showing import outcome_titles
from engine.knowledge.library import Library
from engine.knowledge.schema import Block, Check
from engine.knowledge.states import UNLISTED

Entry = dict[str, Any]
Blocks = Mapping[str, Block]

SHARED = ("kind", "title", "asks", "mode", "load", "lid", "needs", "minutes", "where", "how")
BESIDE = ("right", "may_see", "plain", "cautions", "source")


def families(library: Library, blocks: Blocks) -> Iterator[Entry]:
    """Yield the kinds of set."""
    for name, family in library.families.items():
        shown = family.model_dump(include={"title", "about", "recognise", "channels", "rules"})
        yield {"id": name, **shown, "source": family.source, "blocks": list(family.blocks)}


def blocks(library: Library, blocks: Blocks) -> Iterator[Entry]:
    """Yield the stages, with the numbers of their causes and checks."""
    for name, block in blocks.items():
        numbers = {"causes": len(block.causes), "checks": len(block.checks)}
        yield {"id": name, "title": block.title, "about": block.about, **numbers}


def signals(library: Library, blocks: Blocks) -> Iterator[Entry]:
    """Yield every signal that is made, with its states from right to worst."""
    for name, block in blocks.items():
        for signal_name, signal in block.makes.items():
            shown = signal.model_dump(include={"title", "carries", "states"})
            yield {"id": f"{name}.{signal_name}", "block": name, **shown}


def causes(library: Library, blocks: Blocks) -> Iterator[Entry]:
    """Yield every cause; `ways` are those in which it can be there, if there are several."""
    for name, block in blocks.items():
        for cause_name, cause in block.causes.items():
            shown = cause.model_dump(include={"title", "kind", "about", "act", "cautions"})
            ways = {way_name: way.title for way_name, way in cause.ways.items()}
            start = {"id": f"{name}.{cause_name}", "block": name}
            yield {**start, **shown, "ways": ways, "source": cause.source}
        for signal in unlisted_signals(block):
            start = {"id": unlisted_name(name, signal), "block": name}
            title = {"title": unlisted_title(block, signal)}
            yield {**start, **title, "kind": UNLISTED, "source": "estimate"}


def checks(library: Library, blocks: Blocks) -> Iterator[Entry]:
    """Yield every check, symptoms too, with its outcomes or its unit and span."""
    for name, block in blocks.items():
        for check_name, check in block.checks.items():
            yield _check(name, check_name, check)


def symptoms(library: Library, blocks: Blocks) -> Iterator[Entry]:
    """Yield what an owner may notice."""
    return (check for check in checks(library, blocks) if check["kind"] == "symptom")


def instruments(library: Library, blocks: Blocks) -> Iterator[Entry]:
    """Yield the instruments, with the units they read."""
    for name, one in library.instruments.items():
        yield {"id": name, "title": one.title, "plain": one.plain, "units": list(one.accuracy)}


def cautions(library: Library, blocks: Blocks) -> Iterator[Entry]:
    """Yield the warnings."""
    for name, caution in library.cautions.items():
        yield {"id": name, **caution.model_dump()}


KINDS: dict[str, Callable[[Library, Blocks], Iterator[Entry]]] = {
    "families": families,
    "symptoms": symptoms,
    "checks": checks,
    "causes": causes,
    "blocks": blocks,
    "instruments": instruments,
    "signals": signals,
    "cautions": cautions,
}


def _check(block: str, name: str, check: Check) -> Entry:
    answers = {
        "outcomes": outcome_titles(check),
        "unit": check.unit,
        "span": check.span,
    }
    start = {"id": f"{block}.{name}", "block": block, "looks_at": check.looks_at}
    shared = {key: getattr(check, key) for key in SHARED}
    return {**start, **shared, **answers, **{key: getattr(check, key) for key in BESIDE}}
