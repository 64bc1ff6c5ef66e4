"""Set models for the terminal: compiled once for each state of the knowledge, then kept."""

import os
from hashlib import sha256
from pathlib import Path

from engine.diagnosis.kinds import NOT_SURE
from engine.diagnosis.making.compiling import compile_family
from engine.diagnosis.making.kind_texts import kind_texts
from engine.diagnosis.mixing import mix
from engine.diagnosis.model import SetModel
from engine.diagnosis.storage import dump_model, load_model
from engine.knowledge.draft import name_of
from engine.knowledge.library import read_texts, version_of
from engine.terminal.knowledge_base import knowledge_base, open_library

ENGINE = Path(__file__).resolve().parents[1]


def open_model(directory: Path, family: str) -> SetModel | None:
    """Return the model of a family of the knowledge base in `directory`, None if it has none such.

    `not-sure` stands for all of them together.

    Raises:
        UsageError: it is no knowledge base.
        KnowledgeError: it has problems.
    """
    if family == NOT_SURE:
        return _mixed(directory)
    kept = _place(directory, family)
    if kept.is_file():
        return load_model(kept.read_text(encoding="utf-8"))
    library = open_library(directory)
    if family not in library.families:
        return None
    model = compile_family(library, family)
    _keep(kept, dump_model(model))
    return model


def families(directory: Path) -> list[str]:
    """Return the families of the knowledge base in `directory`, by the names of their files.

    Where a table tells them apart, not being sure is one more.
    """
    files = sorted(read_texts(knowledge_base(directory)))
    found = [name_of(file) for file in files if file.startswith("families/")]
    return [*found, NOT_SURE] if "tables/kinds.yaml" in files else found


def _mixed(directory: Path) -> SetModel | None:
    """Return the model of all families together, None where no table tells them apart."""
    kinds = kind_texts(open_library(directory))
    if kinds is None:
        return None
    models = {name: open_model(directory, name) for name in kinds.shares}
    return mix({name: model for name, model in models.items() if model is not None}, kinds)


def _place(directory: Path, family: str) -> Path:
    """Return where the model is kept: named after knowledge and engine, so never out of date."""
    texts = read_texts(knowledge_base(directory))
    code = sha256()
    for path in sorted(ENGINE.rglob("*.py")):
        code.update(path.read_bytes())
    start = os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache"
    name = f"{family}-{version_of(texts)}-{code.hexdigest()[:12]}.json"
    return Path(start) / "dryjoint" / name


def _keep(path: Path, text: str) -> None:
    """Write the model; a place that cannot be written to only costs time."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        beside = path.with_suffix(f".{os.getpid()}")
        beside.write_text(text, encoding="utf-8")
        beside.replace(path)
    except OSError:
        return
