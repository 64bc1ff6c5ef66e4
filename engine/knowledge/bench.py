"""Rules on what it takes to make a check safely: instruments, dummy load, lid."""

from collections.abc import Collection, Iterator

from engine.errors import Problem
from engine.knowledge.draft import Draft, Page
from engine.knowledge.naming import unknown
from engine.knowledge.reading import Source
from engine.knowledge.schema import Block, Check
from engine.knowledge.tables import Cautions, Instruments
from engine.knowledge.wording import Path
from engine.radio.units import BASES, PLAIN, is_unit

INSTRUMENTS = "tables/instruments.yaml"
DUMMY_LOAD = "dummy-load"
LOAD_CAUTION = "dummy-load-first"


def bench_problems(page: Page[Block], draft: Draft) -> Iterator[Problem]:
    """Yield what is wrong with instruments, loads and cautions of the checks of a block."""
    instruments = draft.table(INSTRUMENTS, Instruments)
    for name, check in page.model.checks.items():
        if check.unit is not None and not is_unit(check.unit):
            yield _no_unit(page.source, ("checks", name, "unit"), check.unit)
        elif instruments is not None:
            yield from _instruments(page, name, check, instruments)
        yield from _transmit(page, name, check)
        yield from _owner(page, name, check)
    yield from _cautions(page, draft)


def unit_problems(draft: Draft) -> Iterator[Problem]:
    """Yield accuracies of instruments for what is no unit."""
    page, table = draft.pages.get(INSTRUMENTS), draft.table(INSTRUMENTS, Instruments)
    if page is None or table is None:
        return
    for name, instrument in table.instruments.items():
        for unit in instrument.accuracy:
            if not is_unit(unit):
                yield _no_unit(page.source, ("instruments", name, "accuracy", unit), unit)


def _no_unit(source: Source, path: Path, unit: str) -> Problem:
    remedy = f"Known: {', '.join((*BASES, *PLAIN))}; also with a prefix, such as mV or kHz."
    return source.problem(path, f"'{unit}'", "a unit that readings can have", remedy)


def _instruments(
    page: Page[Block], name: str, check: Check, table: Instruments
) -> Iterator[Problem]:
    """Yield unknown instruments, and a reading that none of its instruments can give."""
    known = table.instruments
    for index, needed in enumerate(check.needs):
        path = ("checks", name, "needs", index)
        yield from unknown(page.source, path, needed, known, "an instrument")
    if check.unit is None or not all(needed in known for needed in check.needs):
        return
    if not any(check.unit in known[needed].accuracy for needed in check.needs):
        able = [key for key, one in sorted(known.items()) if check.unit in one.accuracy]
        remedy = f"Add one that reads {check.unit}: {', '.join(able) or 'none does yet'}."
        expected = f"an instrument with an accuracy for {check.unit}"
        found = ", ".join(check.needs) or "no instrument"
        yield page.source.problem(("checks", name, "needs"), found, expected, remedy)


def unwarned(
    source: Source, path: Path, needs: Collection[str], cautions: Collection[str]
) -> Iterator[Problem]:
    """Yield that the dummy load is keyed into without the warning about it, among `cautions`."""
    if DUMMY_LOAD in needs and LOAD_CAUTION not in cautions:
        found = "no warning before keying into the dummy load"
        yield source.problem(path, found, f"'{LOAD_CAUTION}'", f"Add '{LOAD_CAUTION}'.")


def _transmit(page: Page[Block], name: str, check: Check) -> Iterator[Problem]:
    """Yield checks that key the set into no known load, or without the warning about it."""
    if check.mode != "transmit" or check.kind not in ("reading", "look"):
        return
    if DUMMY_LOAD in check.needs:
        path: Path = ("checks", name, "cautions")
        yield from unwarned(page.source, path, check.needs, check.cautions)
    elif not check.load or "dummy" in check.load.lower():
        path = ("checks", name, "needs")
        remedy = "Add 'dummy-load', or say in 'load' that the aerial stays connected."
        found = "a transmit check without 'dummy-load'"
        yield page.source.problem(path, found, "'dummy-load', or another load", remedy)


def _owner(page: Page[Block], name: str, check: Check) -> Iterator[Problem]:
    """Yield what an owner cannot answer: symptoms show to the bare eye, questions with lid on."""
    remedy = "Make it a look or a reading, or word it so that an owner can answer."
    if check.kind == "symptom" and check.needs:
        path, found = ("checks", name, "needs"), f"a symptom that needs {check.needs[0]}"
        yield page.source.problem(path, found, "no instrument", remedy)
    if check.kind in ("symptom", "question") and check.lid == "off":
        path, found = ("checks", name, "lid"), f"a {check.kind} with the lid off"
        yield page.source.problem(path, found, "'on'", remedy)


def _cautions(page: Page[Block], draft: Draft) -> Iterator[Problem]:
    table = draft.table("tables/cautions.yaml", Cautions)
    if table is None:
        return
    for part, entries in (("causes", page.model.causes), ("checks", page.model.checks)):
        for name, entry in entries.items():
            for index, caution in enumerate(entry.cautions):
                path = (part, name, "cautions", index)
                yield from unknown(page.source, path, caution, table.cautions, "a caution")
