"""Runs inside the browser's Python at build time: compile and pack what the app needs.

Entries are stored, not deflated: the host compresses the whole, and importing is quicker.
"""

import importlib
import importlib.util
import marshal
import os
import sys
import zipfile

ENGINE = ("api", "draw", "planning", "records", "tables", "physics", "words")
FILES = ("__init__.py", "units.py", "errors.py", "kernel.py", "package_text.py")
UNUSED = (
    "_pyrepl",
    "ctypes",
    "curses",
    "dbm",
    "ensurepip",
    "idlelib",
    "lib2to3",
    "multiprocessing",
    "pydoc_data",
    "sqlite3",
    "test",
    "tkinter",
    "turtledemo",
    "unittest",
    "venv",
    "wsgiref",
    "xml",
    "xmlrpc",
    "zoneinfo",
)
"""Packages of the standard library that the engine has no use for, to save a phone's memory."""
UNUSED_MODULES = (
    "_pyio",
    "bdb",
    "cProfile",
    "cmd",
    "configparser",
    "doctest",
    "ftplib",
    "imaplib",
    "mailbox",
    "modulefinder",
    "optparse",
    "pdb",
    "pickletools",
    "plistlib",
    "poplib",
    "profile",
    "pstats",
    "pyclbr",
    "pydoc",
    "rlcompleter",
    "shelve",
    "smtplib",
    "socketserver",
    "tarfile",
    "trace",
    "turtle",
    "wave",
    "webbrowser",
    "zipapp",
)
WHEN = (2020, 1, 1, 0, 0, 0)
"""One date for every entry: the same sources give the same bytes."""


ENCODINGS = (
    "__init__",
    "aliases",
    "ascii",
    "cp1252",
    "cp437",
    "idna",
    "latin_1",
    "utf_8",
    "utf_8_sig",
)
"""Encodings that text on a phone may come in, and the one that archives name their entries in."""
ALL_KEPT, NO_DOCSTRINGS = 0, 2


def byte_code(source, name, level):
    """Compile a module into the bytes of a .pyc that is never checked against its source."""
    code = compile(source, name, "exec", dont_inherit=True, optimize=level)
    # PEP 552: hash-based and unchecked.
    return importlib.util.MAGIC_NUMBER + (1).to_bytes(4, "little") + bytes(8) + marshal.dumps(code)


def add(archive, name, content, level=ALL_KEPT):
    """Store one file; a module is stored compiled."""
    if name.endswith(".py"):
        name, content = f"{name}c", byte_code(content, name, level)
    archive.writestr(zipfile.ZipInfo(name, WHEN), content)


def is_used(name):
    """Whether a file of the standard library goes along."""
    top, _, rest = name.partition("/")
    if top == "encodings":
        return rest.removesuffix(".py") in ENCODINGS
    return top not in UNUSED and top.removesuffix(".py") not in UNUSED_MODULES


def pack_standard_library():
    """Compile the standard library without its unused parts."""
    with zipfile.ZipFile("/stdlib.zip") as given, zipfile.ZipFile("/packed/stdlib.zip", "w") as to:
        for name in sorted(given.namelist()):
            if not name.endswith("/") and is_used(name):
                add(to, name, given.read(name), NO_DOCSTRINGS)


def pack_engine():
    """Compile the engine and take its tables and words along."""
    root = "/package/fellwright"
    with zipfile.ZipFile("/packed/engine.zip", "w") as to:
        for name in FILES:
            with open(f"{root}/{name}", "rb") as file:
                add(to, f"fellwright/{name}", file.read())
        for part in ENGINE:
            for folder, folders, names in sorted(os.walk(f"{root}/{part}")):
                folders[:] = sorted(one for one in folders if one not in ("__pycache__", "schemas"))
                for name in sorted(names):
                    path = f"{folder}/{name}"
                    with open(path, "rb") as file:
                        add(to, path.removeprefix("/package/"), file.read())
        with open("/made_methods.py", "rb") as file:
            add(to, "made_methods.py", file.read())
        add(to, *made_methods(to.namelist()))


def made_methods(names):
    """Import every module that was packed, and keep the methods that its dataclasses had made."""
    sys.path[:0] = ["/", "/package"]
    made = importlib.import_module("made_methods")
    kept = made.note()
    for name in names:
        module, _, ending = name.partition(".")
        if name.startswith("fellwright/") and ending == "pyc":
            importlib.import_module(module.removesuffix("/__init__").replace("/", "."))
    if not kept:
        raise RuntimeError("dataclasses no longer makes its methods by exec: see made_methods.py")
    return made.NAME, marshal.dumps(kept)


os.makedirs("/packed", exist_ok=True)
pack_standard_library()
pack_engine()
