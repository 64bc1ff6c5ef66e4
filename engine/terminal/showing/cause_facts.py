"""A cause as plain records, with all that follows from it."""

from dataclasses import asdict

from engine.diagnosis.auditing.lookalikes import Lookalikes, OfOneWay, ways_of
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.model import CauseText
from engine.knowledge.states import effects
from engine.terminal.showing.opened import Facts, OpenedSet


def cause_facts(opened: OpenedSet, name: str) -> Facts:
    """Return a cause with all that follows from it."""
    cause, model = opened.model.causes[name], opened.model
    return {
        "kind": "cause",
        "id": name,
        "family": opened.id,
        "block": cause.block,
        "title": cause.title,
        "is": cause.kind,
        "prior": cause.prior,
        "about": cause.about,
        "act": cause.act,
        "repair": _repair(cause),
        "cautions": {one: model.cautions[one].title for one in cause.cautions},
        "prove_first": {check: opened.title_of(check) for check in cause.prove_first},
        "harmed_by": _harmed_by(opened, name),
        "harms": _harmed_causes(opened, name),
        "ways": [_way(opened, name, way) for way in ways_of(opened.library, model, name)],
        "source": cause.source,
    }


def cause_in_short(opened: OpenedSet, block: str, name: str) -> Facts:
    """Return a cause on one line or two: its ways, what they make, how it is mended."""
    cause, text = opened.library.blocks[block].causes[name], opened.model.causes[f"{block}.{name}"]
    _, *priors = calibrated(opened.model, ()).posterior(text.id)
    made = effects(cause)
    ways = zip(text.ways.items(), priors, strict=True)
    return {
        "id": text.id,
        "title": text.title,
        "is": text.kind,
        "prior": text.prior,
        "ways": [
            {"id": way, "title": title, "prior": prior, "makes": made[way]}
            for (way, title), prior in ways
        ],
        "act": text.act,
    }


def _way(opened: OpenedSet, cause: str, way: OfOneWay) -> Facts:
    model = opened.model
    return {
        "id": way.way,
        "title": model.causes[cause].ways[way.way],
        "prior": way.prior,
        "harms": [
            {"id": signal, "title": model.signals[signal].title, "state": state}
            for signal, state in way.harms
        ],
        "symptoms": [
            {**asdict(one), "asks": model.checks[one.symptom].asks} for one in way.symptoms
        ],
        **_alike(opened, way.alike),
    }


def _alike(opened: OpenedSet, alike: Lookalikes) -> Facts:
    model = opened.model
    return {
        "told": [
            {"id": one.check, "asks": model.checks[one.check].asks, "outcome": one.outcome}
            for one in alike.told
        ],
        "chance": alike.chance,
        "rivals": [
            {"id": other, "title": model.causes[other].title, "chance": chance}
            for other, chance in alike.rivals
        ],
        "telling": [
            {"id": check, "title": opened.title_of(check), "gain_bits": gain}
            for check, gain in alike.telling
        ],
    }


def _repair(cause: CauseText) -> Facts | None:
    """Return what putting it right takes, where the knowledge tells."""
    if cause.does_it == 0.0:
        return None
    return {
        "work_min": cause.work_min,
        "part_min": cause.part_min,
        "does_it": cause.does_it,
        "lid": "off" if cause.inside else "on",
    }


def _harmed_by(opened: OpenedSet, name: str) -> dict[str, float]:
    block, _, own = name.partition(".")
    cause = opened.library.blocks[block].causes.get(own)
    return {} if cause is None else dict(cause.harmed_by)


def _harmed_causes(opened: OpenedSet, name: str) -> dict[str, float]:
    """Return what an event brings about, with its chance; nothing for any other cause."""
    if opened.model.causes[name].kind != "event":
        return {}
    event = name.partition(".")[2]
    return {
        f"{block}.{cause_id}": cause.harmed_by[event]
        for block in opened.family.blocks
        for cause_id, cause in opened.library.blocks[block].causes.items()
        if event in cause.harmed_by
    }
