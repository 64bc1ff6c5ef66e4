"""The whole site: every file by its path, then written out with a manifest of hashes.

Files whose address holds a hash of the content may be kept for ever; all others are asked for anew.
"""

import json
import shutil
from collections.abc import Mapping
from dataclasses import dataclass
from importlib.metadata import version
from pathlib import Path

from engine.diagnosis.kinds import KindTexts
from engine.diagnosis.model import SetModel
from engine.knowledge.library import read_texts
from web.build.bytecode import ABOUT, STDLIB, compiled
from web.build.families import (
    compile_families,
    family_files,
    kinds_file,
    knowledge_version,
    read_kinds,
)
from web.build.how_well import how_well_page
from web.build.icons import icon_entries, icon_files
from web.build.notices import notices_page
from web.build.packages import IDIOMORPH, PYODIDE, fetch, sha256
from web.build.parts import ROOT, Files, bundles
from web.build.shell import PAGE, index_page
from web.build.wheels import WHEELS

RUNTIME_FILES = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm")
SHELL = ("index.html", "sw.js")  # stand at the root of the site, filled in
BUNDLE = "bundle.zip"
LATER = (
    "leafing.zip",
    "desk.zip",
    "shelf.zip",
    "finishing.zip",
)  # fetched when somebody opens what is in them


@dataclass(frozen=True, slots=True)
class Built:
    """A site on disk: where, how many files and bytes, and of which knowledge."""

    folder: Path
    files: int
    size_bytes: int
    knowledge: str


def build_site(out: Path, kb: Path = ROOT / "kb", cache: Path = ROOT / ".cache") -> Built:
    """Build the static site into `out`, which is emptied first.

    Raises:
        BuildError: a package cannot be had or is not the pinned one, or node fails.
        KnowledgeError: the knowledge is wrong; its author must act.
    """
    models = compile_families(kb)
    files = site_files(models, read_kinds(kb), read_texts(kb), cache)
    shutil.rmtree(out, ignore_errors=True)
    for path, data in files.items():
        target = out / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(data)
    size_bytes = sum(len(data) for data in files.values())
    return Built(out, len(files), size_bytes, knowledge_version(models))


def site_files(
    models: dict[str, SetModel], kinds: KindTexts | None, texts: Mapping[str, str], cache: Path
) -> Files:
    """Return every file of the site by its path."""
    pyodide, idiomorph = fetch(PYODIDE, cache), fetch(IDIOMORPH, cache)
    made = compiled(pyodide, bundles(models, texts, cache), cache)
    runtime = placed("runtime", runtime_files(pyodide, made))
    app = placed("app", {**app_files(idiomorph, made), **icon_files(cache), **kinds_file(kinds)})
    families = placed("families", family_files(models))
    workshop = placed("workshop", workshop_files(made))
    app_folder = next(iter(app)).split("/")[0]
    about = (made / ABOUT).read_text(encoding="utf-8")
    titles = {name: model.family.title for name, model in models.items()}
    root = {
        "notices.html": notices_page(cache, about, f"{app_folder}/styles.css"),
        "how-well.html": how_well_page(f"{app_folder}/styles.css", titles),
        "app.webmanifest": web_manifest(app_folder),
    }
    root["index.html"] = index_page(
        tuple(model.family for model in models.values()),
        places(models, runtime=runtime, app=app, workshop=workshop, families=families),
    )
    shell = {**app, **root}
    parts = {"runtime": runtime, "app": shell, "workshop": workshop, "families": families}
    everything = {path: data for files in parts.values() for path, data in files.items()}
    return with_manifest({**everything, "sw.js": service_worker(parts)})


def runtime_files(pyodide: Path, made: Path) -> Files:
    """Return what the browser's Python is made of."""
    lock = json.loads((pyodide / "pyodide-lock.json").read_bytes())
    files = {name: (pyodide / name).read_bytes() for name in RUNTIME_FILES}
    files["stdlib.zip"] = (made / STDLIB).read_bytes()
    # No package is ever loaded by name; the runtime only wants to read its own description.
    files["pyodide-lock.json"] = json.dumps({"info": lock["info"], "packages": {}}).encode()
    return files


def app_files(idiomorph: Path, made: Path) -> Files:
    """Return our scripts, looks and compiled Python."""
    own = [path for path in sorted(PAGE.iterdir()) if path.is_file() and path.name not in SHELL]
    files = {path.name: path.read_bytes() for path in own}
    looks = sorted((PAGE / "styles").glob("*.css"))  # one file: one request before the first paint
    files["styles.css"] = b"\n".join(path.read_bytes() for path in looks)
    files["idiomorph.js"] = (idiomorph / "dist" / "idiomorph.esm.js").read_bytes()
    files |= {name: (made / name).read_bytes() for name in (BUNDLE, *LATER)}
    return files


def workshop_files(made: Path) -> Files:
    """Return what only authors of knowledge need: fetched and kept when they first come."""
    return {name: (made / name).read_bytes() for name in ("authoring.zip", "packages.zip")}


def placed(part: str, files: Files) -> Files:
    """Return the files in a folder named after their content: `app-0123456789ab/page.js`."""
    return {f"{part}-{folder_hash(files)}/{path}": data for path, data in files.items()}


def folder_hash(files: Mapping[str, bytes]) -> str:
    """Return twelve hex digits that stand for names and content of files."""
    lines = "".join(f"{path} {sha256(data)}\n" for path, data in sorted(files.items()))
    return sha256(lines.encode())[:12]


def places(models: dict[str, SetModel], **parts: Files) -> dict[str, str]:
    """Return what index.html is filled with; `parts` are the files in folders, by their part."""
    bundle = (data for path, data in parts["app"].items() if path.endswith(BUNDLE))
    return {
        **{part: next(iter(files)).split("/")[0] for part, files in parts.items()},
        "workshop_bytes": str(sum(map(len, parts["workshop"].values()))),
        "bytes": str(sum(map(len, [*parts["runtime"].values(), *bundle]))),
        "version": version("dryjoint"),
        "knowledge": knowledge_version(models),
    }


def service_worker(parts: Mapping[str, Files]) -> bytes:
    """Return sw.js with every file, its hash and its length, by part."""
    listed = {
        part: {
            "hash": folder_hash(files),
            "files": {path: sha256(data) for path, data in files.items()},
            "bytes": {path: len(data) for path, data in files.items()},
        }
        for part, files in parts.items()
    }
    script = (PAGE / "sw.js").read_text(encoding="utf-8")
    assert "const PARTS = {};" in script
    return script.replace("const PARTS = {};", f"const PARTS = {json.dumps(listed)};").encode()


def web_manifest(app_folder: str) -> bytes:
    """Return the description for keeping the page as an app."""
    return json.dumps(
        {
            "name": "Dryjoint",
            "short_name": "Dryjoint",
            "description": "Finds the failed part in an old two-way radio, also offline",
            "lang": "en-GB",
            "id": "./",
            "scope": "./",
            "start_url": "./",
            "display": "standalone",
            "background_color": "#f3efe4",
            "theme_color": "#26483d",
            "icons": icon_entries(app_folder),
        }
    ).encode()


def with_manifest(files: Files) -> Files:
    """Return the files with `build-manifest.json`: what was fetched, and every file's hash."""
    manifest = {
        "packages": [
            {"name": each.name, "version": each.version, "sha256": each.sha256}
            for each in (PYODIDE, IDIOMORPH, *WHEELS)
        ],
        "files": {path: sha256(data) for path, data in sorted(files.items())},
    }
    return {**files, "build-manifest.json": json.dumps(manifest, indent=1).encode()}
