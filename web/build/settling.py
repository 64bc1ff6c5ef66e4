"""Folders that are made whole or not at all, also when two builds run at once."""

import shutil
from pathlib import Path
from tempfile import mkdtemp


def beside(folder: Path) -> Path:
    """Return a new empty folder of its own beside `folder`, to be filled and then settled."""
    folder.parent.mkdir(parents=True, exist_ok=True)
    return Path(mkdtemp(prefix=f"{folder.name}-", dir=folder.parent))


def settle(made: Path, folder: Path) -> None:
    """Put what was made in its place; if another build was first, its folder stays."""
    try:
        made.rename(folder)
    except OSError:
        if not folder.is_dir():
            raise
        shutil.rmtree(made)
