"""Size, loading and one step of every family, and of all as one. Not a test.

Run by `python tests/bench/families_bench.py`. Times are medians of one run; what to look at is the
ratio of one family to another.
"""

import gzip
import sys
from pathlib import Path
from statistics import median
from time import perf_counter

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from engine.diagnosis.advice import step  # noqa: E402
from engine.diagnosis.case import Case, add_finding, full_kit  # noqa: E402
from engine.diagnosis.entry import read_answer  # noqa: E402
from engine.diagnosis.evidence import calibrated  # noqa: E402
from engine.diagnosis.kind_texts import kind_texts  # noqa: E402
from engine.diagnosis.kinds import NOT_SURE  # noqa: E402
from engine.diagnosis.mixing import mix  # noqa: E402
from engine.diagnosis.model import SetModel  # noqa: E402
from engine.diagnosis.storage import dump_model, load_model  # noqa: E402
from engine.knowledge.library import read_library  # noqa: E402
from engine.terminal.columns import columns  # noqa: E402
from engine.terminal.models import open_model  # noqa: E402

KB = ROOT / "kb"
SAID = (
    ("operating.hears-only-near", "yes"),
    ("operating.all-sound-quiet", "no"),
    ("operating.reach-short", "yes"),
    ("set.changes-with-a-knock", "no"),
)
FEW = 12  # checks that a screen looks at
HEAD = ("family", "causes", "checks", "entries", "gzip kB", "load ms", "cold ms", "next ms")


def main() -> None:
    """Print a line for each family, and one for all of them together."""
    library = read_library(KB)
    models: dict[str, SetModel] = {}
    rows = []
    for name in library.families:
        made = open_model(KB, name)
        assert made is not None, name
        text = dump_model(made)
        started = perf_counter()
        models[name] = load_model(text)
        loading = perf_counter() - started
        rows.append(row(name, models[name], text, loading))
    kinds = kind_texts(library)
    if kinds is not None:
        started = perf_counter()
        mixed = mix(models, kinds)
        rows.append(row(NOT_SURE, mixed, "", perf_counter() - started))
    print(columns(HEAD, rows))


def row(name: str, model: SetModel, text: str, loading: float) -> tuple[object, ...]:
    """Return what one family costs: the first step of all, and the median of those that follow."""
    case, times = Case(name, full_kit(model)), []
    calibrated.cache_clear()
    for check, said in SAID:
        if check not in model.checks:
            continue
        case = add_finding(case, read_answer(model, check, said))
        started = perf_counter()
        step(model, case, FEW)
        times.append(1e3 * (perf_counter() - started))
    packed = len(gzip.compress(text.encode())) // 1000
    sizes = (len(model.causes), len(model.checks), model.tree.size, packed or "-")
    return (name, *sizes, f"{1e3 * loading:.0f}", f"{times[0]:.0f}", f"{median(times[1:]):.0f}")


if __name__ == "__main__":
    main()
