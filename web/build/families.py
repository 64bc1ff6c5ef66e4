"""Compiles every family of the knowledge for the page."""

import json
from dataclasses import asdict
from pathlib import Path

from engine.diagnosis.compiling import compile_family
from engine.diagnosis.model import SetModel
from engine.diagnosis.storage import dump_model
from engine.knowledge.library import read_library


def compile_families(kb: Path) -> dict[str, SetModel]:
    """Return the model of every family below `kb`, by id."""
    library = read_library(kb)
    return {name: compile_family(library, name) for name in sorted(library.families)}


def family_files(models: dict[str, SetModel]) -> dict[str, bytes]:
    """Return one JSON file for each family, by its path in the app."""
    return {f"families/{name}.json": dump_model(model).encode() for name, model in models.items()}


def catalogue(models: dict[str, SetModel], version: str) -> bytes:
    """Return what the first screen shows of every family, as JSON."""
    families = [asdict(model.family) for model in models.values()]
    return json.dumps({"version": version, "families": families}, sort_keys=True).encode()


def knowledge_version(models: dict[str, SetModel]) -> str:
    """Return the versions of the knowledge of all families."""
    return ", ".join(sorted(model.version for model in models.values()))
