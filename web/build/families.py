"""Compiles every family of the knowledge for the page."""

import json
import zlib
from collections.abc import Mapping
from concurrent.futures import ProcessPoolExecutor
from dataclasses import asdict
from hashlib import sha256
from itertools import repeat
from multiprocessing import get_context
from pathlib import Path

from engine.diagnosis.glossary import dump_terms
from engine.diagnosis.kinds import NOT_SURE, KindTexts
from engine.diagnosis.making.kind_texts import kind_texts
from engine.diagnosis.making.vocabulary import terms_of
from engine.diagnosis.model import SetModel
from engine.diagnosis.storage import dump_kinds, dump_model
from engine.knowledge.library import load, read_library
from engine.proving.making import make_sheet
from engine.proving.storing import plain
from engine.terminal.models import open_model


def compile_families(kb: Path) -> dict[str, SetModel]:
    """Return the model of every family below `kb`, by id; on all cores, or kept from before."""
    names = sorted(read_library(kb).families)
    with ProcessPoolExecutor(mp_context=get_context("spawn")) as pool:
        return dict(zip(names, pool.map(_compiled, repeat(kb), names), strict=True))


def _compiled(kb: Path, family: str) -> SetModel:
    model = open_model(kb, family)
    assert model is not None, family
    return model


def family_files(models: dict[str, SetModel]) -> dict[str, bytes]:
    """Return the file of each family: its JSON, deflated, whatever the server does or does not."""
    return {
        f"{name}.model": zlib.compress(dump_model(model).encode(), 9)
        for name, model in models.items()
    }


def kinds_file(kinds: KindTexts | None) -> dict[str, bytes]:
    """Return what the app needs for not being sure which family it is; nothing, with one family."""
    return {f"{NOT_SURE}.json": dump_kinds(kinds).encode()} if kinds is not None else {}


def read_kinds(kb: Path) -> KindTexts | None:
    """Return what tells the families below `kb` apart, if they say."""
    return kind_texts(read_library(kb))


def catalogue(models: dict[str, SetModel], version: str) -> bytes:
    """Return what the first screen shows of every family, as JSON."""
    families = [asdict(model.family) for model in models.values()]
    return json.dumps({"version": version, "families": families}, sort_keys=True).encode()


def glossary(texts: Mapping[str, str]) -> bytes:
    """Return the words of the trade as JSON; none where the knowledge has no table of them."""
    return dump_terms(terms_of(load(texts))).encode()


def proofs(texts: Mapping[str, str]) -> bytes:
    """Return what is measured before a set is called right, by family, as JSON."""
    library = load(texts)
    sheets = {family: make_sheet(library, family) for family in sorted(library.families)}
    known = {family: plain(sheet) for family, sheet in sheets.items() if sheet is not None}
    return json.dumps(known, separators=(",", ":")).encode()


def knowledge_version(models: dict[str, SetModel]) -> str:
    """Return one version for the knowledge of all families; the record tells that of its own."""
    versions = sorted(model.version for model in models.values())
    if len(versions) == 1:
        return versions[0]
    return sha256(" ".join(versions).encode()).hexdigest()[:12]
