"""Methods of dataclasses, compiled when the app is built: two fifths of the engine's import.

`dataclasses` writes the source of every method of a class and compiles it as the class is made. The
same source gives the same code: it is kept by its source, and what is not kept is compiled as ever.
"""

import builtins
import dataclasses
import marshal

NAME = "made_methods.bin"


def note():
    """Keep the code of every method that is made from now on; the dict that is given back fills."""
    kept = {}

    def noting(source, names=None, made=None):
        kept[source] = compile(source, "<string>", "exec", dont_inherit=True)
        builtins.exec(kept[source], names, made)

    dataclasses.exec = noting
    return kept


def use():
    """Take what lies beside this module instead of compiling."""
    kept = marshal.loads(__loader__.get_data(f"{__loader__.archive}/{NAME}"))

    def taking(source, names=None, made=None):
        builtins.exec(kept.get(source, source), names, made)

    dataclasses.exec = taking
