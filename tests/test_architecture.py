"""Who may import whom, what stands where, and how long anything may be."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from statistics import median

import pytest

ROOT = Path(__file__).resolve().parents[1]
MODULES = sorted([*ROOT.glob("engine/**/*.py"), *ROOT.glob("web/**/*.py")])
ENGINE = [path for path in MODULES if path.is_relative_to(ROOT / "engine")]

MAY_IMPORT = {
    "engine.errors": set(),
    "engine.inference": {"engine.errors"},
    "engine.radio": {"engine.errors"},
    "engine.words": {"engine.errors"},
    "engine.knowledge": {"engine.errors", "engine.radio"},
    "engine.diagnosis": {
        "engine.errors",
        "engine.inference",
        "engine.radio",
        "engine.knowledge",
        "engine.words",
    },
    "engine.proving": {
        "engine.errors",
        "engine.radio",
        "engine.knowledge",
        "engine.diagnosis",
    },
    "engine.setting_up": {
        "engine.errors",
        "engine.radio",
        "engine.knowledge",
        "engine.diagnosis",
    },
    "engine.assessing": {
        "engine.errors",
        "engine.inference",
        "engine.knowledge",
        "engine.diagnosis",
        "engine.proving",
        "engine.setting_up",
    },
    "engine.terminal": {
        "engine.errors",
        "engine.assessing",
        "engine.radio",
        "engine.knowledge",
        "engine.diagnosis",
        "engine.proving",
        "engine.setting_up",
        "engine.words",
        "web",
    },
    "engine.__main__": {"engine.errors", "engine.terminal"},
}
ONLY_IN = {
    "pydantic": {"engine.knowledge"},
    "pydantic_core": {"engine.knowledge"},
    "yaml": {"engine.knowledge"},
    "networkx": {"engine.knowledge", "engine.inference"},
    "segno": {"web"},
    "random": {"engine.assessing"},
    "time": {"engine.assessing"},
}
NOWHERE = {
    "asyncio", "datetime", "http", "js", "numpy", "pyodide", "secrets", "socket", "tests",
    "urllib", "uuid",
}  # fmt: skip
IN_THE_BROWSER = (
    "engine.diagnosis.model",
    "engine.diagnosis.storage",
    "engine.diagnosis.case",
    "engine.diagnosis.entry",
    "engine.diagnosis.advising.advice",
    "engine.diagnosis.advising.explaining",
    "engine.diagnosis.messages.sentences",
    "engine.setting_up.guiding",
    "web.answering",
    "web.leafing",
    "web.desk",
    "web.shelf",
    "web.finishing",
)
LATER = {
    "web.leafing",
    "web.desk",
    "web.shelf",
    "web.finishing",
    "web.authoring",
}  # archives that are fetched when asked for
NOT_IN_THE_BROWSER = {"pydantic", "pydantic_core", "yaml", "networkx"}
RADIO_WORDS = re.compile(
    r"\b(aerial|antenna|carrier|crystal|deviation|microphone|mhz|oscillator|radio|receiver|"
    r"receive|solder|squelch|transceiver|transmit|transmitter|volt|voltage|watt)s?\b",
    re.IGNORECASE,
)
LONGEST_FUNCTION = 30
LONGEST_MODULE = 250
TYPICAL_MODULE = 130


def name_of(path: Path) -> str:
    """Return the dotted name of a module."""
    return ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")


def layer_of(module: str) -> str:
    """Return the layer of a module: `web`, `engine`, or a part of the engine."""
    parts = module.split(".")
    return parts[0] if parts[0] == "web" else ".".join(parts[:2])


def imports(path: Path) -> Iterator[str]:
    """Yield the dotted names a module imports when it runs."""
    for node in _running(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: imports are written out in full"
            yield str(node.module)
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def _running(node: ast.AST) -> Iterator[ast.AST]:
    """Yield all nodes, without what only a type checker sees."""
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.If) and "TYPE_CHECKING" in ast.unparse(child.test):
            continue
        yield child
        yield from _running(child)


def reached_from(root: str) -> dict[str, set[str]]:
    """Return every module of ours that runs when `root` is imported, with what it imports."""
    ours = {name_of(path): path for path in MODULES}
    assert root in ours, f"{root} is gone; name its successor here"
    reached: dict[str, set[str]] = {}
    waiting = [root]
    while waiting:
        module = waiting.pop()
        if module in reached or module not in ours:
            continue
        reached[module] = set(imports(ours[module]))
        parts = module.split(".")
        packages = [".".join(parts[:depth]) for depth in range(1, len(parts))]
        waiting += [*reached[module], *packages]
    return reached


def functions(path: Path) -> Iterator[tuple[str, int]]:
    """Yield the name of each function and the lines of its body, without the docstring."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            body = node.body[1:] if ast.get_docstring(node) is not None else node.body
            lines = (body[-1].end_lineno or 0) - body[0].lineno + 1 if body else 0
            yield node.name, lines


@pytest.mark.parametrize("path", ENGINE, ids=name_of)
def test_a_layer_imports_only_what_it_may(path: Path) -> None:
    """A layer never imports a layer above or beside it."""
    own = layer_of(name_of(path))
    ours = {layer_of(one) for one in imports(path) if one.startswith(("engine.", "web"))}
    assert ours - {own} <= MAY_IMPORT.get(own, set(MAY_IMPORT))


def test_the_table_for_developers_says_the_same() -> None:
    """What DEVELOPERS.md lets a folder of the engine import is what is tested here."""
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| `(engine/\w+)/` \|.*\| ([\w, ]+) \|$", text, re.MULTILINE)
    told = {
        folder.replace("/", "."): {
            one if one == "web" else f"engine.{one}" for one in may.split(", ")
        }
        for folder, may in rows
    }
    files = ("engine.errors", "engine.__main__")
    assert told == {layer: may for layer, may in MAY_IMPORT.items() if layer not in files}


@pytest.mark.parametrize("path", ENGINE, ids=name_of)
def test_outside_packages_stay_where_they_belong(path: Path) -> None:
    """YAML and pydantic live in knowledge, clocks and dice in assessing, sockets nowhere."""
    outside = {one.split(".")[0] for one in imports(path)}
    assert not outside & NOWHERE
    for package, layers in ONLY_IN.items():
        assert package not in outside or layer_of(name_of(path)) in layers, package


@pytest.mark.parametrize("root", IN_THE_BROWSER)
def test_the_browser_needs_no_heavy_package(root: str) -> None:
    """What runs on the page imports neither pydantic, yaml nor networkx, however indirectly."""
    heavy = {
        f"{module} imports {package}"
        for module, imported in reached_from(root).items()
        for package in {one.split(".")[0] for one in imported} & NOT_IN_THE_BROWSER
    }
    assert not heavy


def test_what_comes_later_is_not_needed_at_the_start() -> None:
    """The page starts without the leaves of the knowledge and without the tools for authors."""
    assert not LATER & set(reached_from("web.answering"))
    assert "web.authoring" not in reached_from("web.leafing")


@pytest.mark.parametrize("root", [*IN_THE_BROWSER, "web.authoring"])
def test_simulated_sets_never_reach_the_browser(root: str) -> None:
    """Dice and clocks stay on the machine of whoever assesses."""
    assert not [one for one in reached_from(root) if one.startswith("engine.assessing")]


def test_the_tools_for_authors_are_those_of_the_terminal() -> None:
    """One reader, one set of rules, one compiler; nothing of them is written twice."""
    reached = set(reached_from("web.authoring"))
    assert {"engine.knowledge.checking", "engine.diagnosis.making.compiling"} <= reached
    assert "engine.terminal.check" not in reached


@pytest.mark.parametrize("path", sorted(ROOT.glob("engine/inference/*.py")), ids=name_of)
def test_inference_holds_no_word_of_radio(path: Path) -> None:
    """The same arithmetic would serve a pump."""
    assert RADIO_WORDS.findall(path.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_functions_are_short(path: Path) -> None:
    """A function has thirty lines at most, without its docstring."""
    assert [one for one in functions(path) if one[1] > LONGEST_FUNCTION] == []


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_modules_are_short(path: Path) -> None:
    """A module is split by idea before it grows long."""
    assert len(path.read_text(encoding="utf-8").splitlines()) <= LONGEST_MODULE


def test_a_typical_module_is_a_short_chapter() -> None:
    """Half of the engine's modules are about a hundred lines or less."""
    lengths = [len(path.read_text(encoding="utf-8").splitlines()) for path in ENGINE]
    assert median(lengths) <= TYPICAL_MODULE
