"""How to call node and npm on this machine."""

import shutil
from pathlib import Path

from web.environment import find_node


def node_command() -> list[str]:
    """Return the words that start node."""
    return [str(find_node())]


def npm_command() -> list[str]:
    """Return the words that start npm: the one beside node, or the one on the path."""
    node = Path(find_node())
    places = (node.parent.parent / "lib", node.parent, node.parent.parent)
    for place in places:
        script = place / "node_modules" / "npm" / "bin" / "npm-cli.js"
        if script.is_file():
            return [str(node), str(script)]
    return [shutil.which("npm") or "npm"]
