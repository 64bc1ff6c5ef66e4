"""A set model as text and back: made natively at build time, loaded in the browser."""

import json
from dataclasses import fields, is_dataclass, replace
from hashlib import sha256
from typing import Any

from engine.diagnosis.frequencies import storing as frequency_storing
from engine.diagnosis.frequencies.checks import on_every_channel, once
from engine.diagnosis.frequencies.model import AtPoint, FrequencyModel
from engine.diagnosis.kinds import KindTexts
from engine.diagnosis.model import (
    BlockText,
    CauseText,
    CautionText,
    CheckText,
    FamilyText,
    Handling,
    InstrumentText,
    LimitText,
    Mending,
    Presumed,
    SetModel,
    SignalText,
)
from engine.diagnosis.readings import Meter, Spread
from engine.diagnosis.settings import loaded as settings_loaded
from engine.inference.gain import Channel
from engine.inference.noisy_or import NoisyOr, NoisyTree
from engine.inference.propagation import Clique, Home, JunctionTree
from engine.radio.plans import storing
from engine.radio.plans.plan import Plan
from engine.words.lexicon import Concept

FORMAT = 2


def dump_model(model: SetModel) -> str:
    """Return the model of one family as JSON text; the same model always gives the same text."""
    kept = replace(model, checks=once(model.checks))
    plain = {name: item for name, item in _plain(kept).items() if name != "counted_sets"}
    return json.dumps({"format": FORMAT, **plain}, separators=(",", ":"))


def load_model(text: str) -> SetModel:
    """Return the model that `dump_model` wrote.

    Raises:
        ValueError: the text was written in another format; build the site anew.
    """
    data = json.loads(text)
    if data["format"] != FORMAT:
        raise ValueError(f"format: found {data['format']}, expected {FORMAT}; build the site anew")
    plan = storing.loaded(data["plan"]) if data["plan"] else None
    kept = data["frequencies"]
    frequencies = frequency_storing.loaded(kept, plan) if plan and kept else None
    checks = {name: _check(item) for name, item in data["checks"].items()}
    return SetModel(
        family=FamilyText(**_tuples(data["family"])),
        version=data["version"],
        blocks=_texts(BlockText, data["blocks"]),
        edges=tuple(map(tuple, data["edges"])),
        signals=_texts(SignalText, data["signals"]),
        causes=_texts(CauseText, data["causes"]),
        checks=on_every_channel(checks, frequencies),
        instruments=_texts(InstrumentText, data["instruments"]),
        cautions=_texts(CautionText, data["cautions"]),
        cut_sets={name: _cut_sets(sets) for name, sets in data["cut_sets"].items()},
        p_all_fine=data["p_all_fine"],
        tree=_tree(data["tree"]),
        limits=_texts(LimitText, data["limits"]),
        carriers_mhz=tuple((channel, mhz) for channel, mhz in data["carriers_mhz"]),
        plan=plan,
        frequencies=frequencies,
        concepts=_texts(Concept, data["concepts"]),
        takes=_tuples(data["takes"]),
        handling=Handling(**data["handling"]),
        mending=Mending(**data["mending"]) if data["mending"] else None,
        setting_up=settings_loaded(data["setting_up"]) if data["setting_up"] else None,
    )


def dump_kinds(kinds: KindTexts) -> str:
    """Return what tells the families apart as JSON text."""
    return json.dumps({"format": FORMAT, **_plain(kinds)}, separators=(",", ":"))


def load_kinds(text: str) -> KindTexts:
    """Return what `dump_kinds` wrote."""
    data = json.loads(text)
    return KindTexts(
        shares=data["shares"],
        block=BlockText(**_tuples(data["block"])),
        signal=SignalText(**_tuples(data["signal"])),
        checks={name: _check(item) for name, item in data["checks"].items()},
    )


def fingerprint(model: SetModel) -> str:
    """Return a short name of the knowledge in a model: the same knowledge, the same name."""
    return sha256(dump_model(model).encode()).hexdigest()[:12]


def _plain(value: Any) -> Any:
    """Return a value as JSON knows it; fields that hold their default text stay, for plainness."""
    if isinstance(value, Plan):
        return storing.plain(value)
    if isinstance(value, FrequencyModel):
        return frequency_storing.plain(value)
    if is_dataclass(value):
        return {item.name: _plain(getattr(value, item.name)) for item in fields(value)}
    if isinstance(value, dict):
        return {key: _plain(item) for key, item in value.items()}
    if isinstance(value, tuple | list):
        return [_plain(item) for item in value]
    return value


def _cut_sets(sets: list[Any]) -> tuple[tuple[tuple[str, str], ...], ...]:
    return tuple(tuple((cause, way) for cause, way in events) for events in sets)


def _texts(kind: Any, items: dict[str, dict[str, Any]]) -> dict[str, Any]:
    return {name: kind(**_tuples(item)) for name, item in items.items()}


def _tuples(item: dict[str, Any]) -> dict[str, Any]:
    """Return the fields of a flat record: JSON's lists are tuples here."""
    return {key: tuple(v) if isinstance(v, list) else v for key, v in item.items()}


def _check(item: dict[str, Any]) -> CheckText:
    channel, meter, at = item.pop("channel"), item.pop("meter"), item.pop("at")
    presumes, safe_while = _presumed(item.pop("presumes")), _presumed(item.pop("safe_while"))
    said = {answer: tuple(phrases) for answer, phrases in item.pop("said").items()}
    return CheckText(
        **_tuples(item),
        said=said,
        at=AtPoint(**at) if at else None,
        presumes=presumes,
        safe_while=safe_while,
        channel=_channel(channel),
        meter=_meter(meter) if meter else None,
    )


def _presumed(items: list[Any]) -> Presumed:
    return tuple((signal, tuple(states)) for signal, states in items)


def _channel(item: dict[str, Any]) -> Channel:
    rows = tuple(map(tuple, item["rows"]))
    return Channel(rows, tuple(item["row_entropies"]), tuple(item["first"]))


def _meter(item: dict[str, Any]) -> Meter:
    spreads = tuple(Spread(**spread) for spread in item["spreads"])
    return Meter(spreads, (item["span"][0], item["span"][1]), item["slip"])


def _tree(item: dict[str, Any]) -> JunctionTree | NoisyTree:
    """Return a tree, with nodes outside of its tables where it has any."""
    if "inner" not in item:
        return _tables(item)
    nodes = {
        name: NoisyOr(each["otherwise"], {c: tuple(row) for c, row in each["chances"].items()})
        for name, each in item["nodes"].items()
    }
    return NoisyTree(_tables(item["inner"]), nodes)


def _tables(item: dict[str, Any]) -> JunctionTree:
    cliques = tuple(
        Clique(
            tuple(clique["weights"]),
            clique["parent"],
            clique["separator_size"],
            tuple(clique["to_separator"]),
            tuple((child, tuple(index)) for child, index in clique["children"]),
        )
        for clique in item["cliques"]
    )
    homes = {
        name: Home(home["clique"], home["states"], tuple(home["state_of"]))
        for name, home in item["homes"].items()
    }
    return JunctionTree(cliques, homes)
