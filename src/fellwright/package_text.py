"""Text files that lie in the package: tables, profiles, sentences.

Read through the importer, which has the package open. `importlib.resources` goes through the whole
list of a zipped package for every file, and on a phone the package is zipped.
"""

import pkgutil

__all__ = ["package_text"]


def package_text(package: str, path: str) -> str:
    """Text of one file of the package.

    Parameters
    ----------
    package : str
        Dotted name of the folder that holds it.
    path : str
        Path from there, with slashes.

    Returns
    -------
    str
        Its text, lines ended as they are in the file.

    Raises
    ------
    FileNotFoundError
        If there is none.
    """
    try:
        content = pkgutil.get_data(package, path)
    except OSError:  # a zipped package raises the bare error
        content = None
    if content is None:
        raise FileNotFoundError(f"{package} holds no {path}")
    return content.decode("utf-8")
