"""Runs inside Pyodide under node: compiles Python sources with the browser's own Python.

The page then starts from byte code: three to four times sooner than from source.
"""

import importlib._bootstrap_external as loader
import json
import sys
import zipfile
from pathlib import Path

# Nothing the page runs reaches these; leaving them out saves bytes, not time.
UNWANTED = (
    *("__phello__", "_pydatetime", "_pyio", "_pyrepl", "argparse", "asyncio/__main__"),
    *("asyncio/proactor_events", "asyncio/tools", "asyncio/windows_events"),
    *("asyncio/windows_utils", "bdb", "cProfile", "cmd", "code", "compileall"),
    *("concurrent/futures/interpreter", "concurrent/futures/process", "concurrent/interpreters"),
    *("configparser", "ctypes/_aix", "ctypes/macholib", "ctypes/wintypes", "curses", "doctest"),
    *("ensurepip", "filecmp", "fileinput", "ftplib", "getopt", "getpass", "html/parser"),
    *("http/cookiejar", "http/cookies", "http/server", "idlelib", "imaplib"),
    *("json/tool", "logging/config", "logging/handlers", "mailbox", "modulefinder"),
    *("multiprocessing", "netrc", "optparse", "pdb", "pickle", "pickletools", "plistlib"),
    *("poplib", "profile", "pstats", "pty", "py_compile", "pyclbr", "pydoc", "pydoc_data"),
    *("pyodide/console", "rlcompleter", "sched", "shelve", "smtplib", "socketserver", "sqlite3"),
    *("statistics", "symtable", "sysconfig/__main__", "tabnanny", "tarfile", "test", "timeit"),
    *("tomllib", "trace", "tracemalloc", "turtle", "unittest"),
    *("urllib/robotparser", "wave", "wsgiref", "xml/dom", "xmlrpc", "zipapp"),
)
# Of the encodings only these: the page speaks UTF-8, archives name their members in cp437.
ENCODINGS = (
    *("__init__", "aliases", "ascii", "cp437", "cp1252", "idna", "latin_1", "punycode"),
    *("raw_unicode_escape", "unicode_escape", "utf_8", "utf_8_sig", "utf_16", "utf_16_be"),
    *("utf_16_le", "utf_32", "utf_32_be", "utf_32_le"),
)
LIBRARY = "stdlib"  # nobody reads its docstrings in the page: they and its asserts stay behind
EPOCH = (1980, 1, 1, 0, 0, 0)  # the same bytes on every build


def is_wanted(name: str) -> bool:
    """Say whether a member of the standard library goes into the page."""
    stem = name.removesuffix(".py")
    if stem.startswith("encodings/"):
        return stem.removeprefix("encodings/") in ENCODINGS
    return not any(stem == bad or stem.startswith(bad + "/") for bad in UNWANTED)


def byte_code(source: bytes, name: str, optimise: int) -> bytes:
    """Return the content of a .pyc that is never compared with its source; 2 has no docstrings."""
    code = compile(source, name, "exec", dont_inherit=True, optimize=optimise)
    return bytes(loader._code_to_hash_pyc(code, b"\0" * 8, checked=False))  # type: ignore[attr-defined]


def compile_archive(source: Path, target: Path) -> None:
    """Write `target` with the members of the archive `source`, every .py turned into .pyc."""
    optimise = 2 if target.stem == LIBRARY else 0
    with zipfile.ZipFile(source) as read, zipfile.ZipFile(target, "w") as written:
        for name in sorted(read.namelist()):
            if name.endswith("/") or not is_wanted(name):
                continue
            data = read.read(name)
            if name.endswith(".py"):
                name, data = f"{name}c", byte_code(data, name, optimise)
            written.writestr(zipfile.ZipInfo(name, EPOCH), data, zipfile.ZIP_DEFLATED, 9)


def about_python() -> str:
    """Return version and copyright of this Python as JSON, for the notices."""
    return json.dumps({"version": sys.version.split()[0], "copyright": sys.copyright})
