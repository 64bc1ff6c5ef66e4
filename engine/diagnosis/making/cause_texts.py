"""The words of causes, with their priors and what their repair takes."""

from dataclasses import replace

from engine.diagnosis.making.building import unlisted_name, unlisted_signals
from engine.diagnosis.model import CauseText
from engine.inference.propagation import Calibration
from engine.knowledge.library import Library
from engine.knowledge.repairs import RepairFigures, Repairs
from engine.knowledge.schema import Block, Cause
from engine.knowledge.states import PRESENT, UNLISTED

EVENT = "event"  # a kind of cause


def cause_texts(library: Library, nothing_known: Calibration) -> dict[str, CauseText]:
    """Return all causes in words with their priors, each block's unlisted ones last."""
    table = library.repairs
    causes = [
        cause
        for block_id, block in library.blocks.items()
        for cause in (
            *(
                _costed(_cause(block_id, name, one, nothing_known), table, one.part, one.repair)
                for name, one in block.causes.items()
            ),
            *(
                _costed(_unlisted(block_id, block, signal, nothing_known), table)
                for signal in unlisted_signals(block)
            ),
        )
    ]
    return {cause.id: cause for cause in causes}


def _costed(
    text: CauseText,
    table: Repairs | None,
    part: str | None = None,
    own: RepairFigures | None = None,
) -> CauseText:
    """Return a cause with what its repair takes; what happened to a set is past repairing."""
    if table is None or text.kind == EVENT:
        return text
    row = table.of(text.kind, part, own)
    part_min = table.getting[row.getting].worth_min
    is_inside = row.lid == "off"
    return replace(
        text, work_min=row.minutes, part_min=part_min, does_it=row.does_it, inside=is_inside
    )


def _cause(block_id: str, cause_id: str, cause: Cause, nothing_known: Calibration) -> CauseText:
    name = f"{block_id}.{cause_id}"
    ways = {way: item.title for way, item in cause.ways.items()}
    return CauseText(
        id=name,
        block=block_id,
        title=cause.title,
        kind=cause.kind,
        about=cause.about,
        act=cause.act,
        cautions=cause.cautions,
        source=cause.source,
        prior=1.0 - nothing_known.posterior(name)[0],
        ways=ways or {PRESENT: cause.title},
        prove_first=cause.prove_first,
    )


def unlisted_title(block: Block, signal: str) -> str:
    """Return the title of the cause that stands for what the knowledge does not hold."""
    return f"{block.title}: something not listed here that harms: {block.makes[signal].title}"


def _unlisted(block_id: str, block: Block, signal: str, nothing_known: Calibration) -> CauseText:
    name, made = unlisted_name(block_id, signal), block.makes[signal]
    return CauseText(
        id=name,
        block=block_id,
        title=unlisted_title(block, signal),
        kind=UNLISTED,
        about="The knowledge does not hold every way a stage can fail. This stands for the rest.",
        act=(
            "Look the stage over part by part: voltages against the circuit diagram, joints, "
            "tracks, earlier work. Note what it was, so that it can be added."
        ),
        cautions=("discharge",),
        source="estimate",
        prior=1.0 - nothing_known.posterior(name)[0],
        ways={state: f"{made.title}: {state.replace('-', ' ')}" for state in made.states[1:]},
    )
