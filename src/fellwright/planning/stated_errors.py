"""Errors stated with a height or a dbh: they widen the usual ones, never narrow them."""

import math

from fellwright.planning import bands
from fellwright.records.tree import Tree

__all__ = ["dbh_doubt_ratio", "dbh_excess_ratio", "height_doubt_ratio", "stated_keys"]


def height_doubt_ratio(tree: Tree, height_m: float, usual_ratio: float) -> float:
    """Relative sigma of the height.

    Parameters
    ----------
    tree : Tree
        The tree as read.
    height_m : float
        Height used [m].
    usual_ratio : float
        Sigma that is usual for the way it came about, as a share.

    Returns
    -------
    float
        The usual one, or the one stated where that is larger.
    """
    if tree.height_error_m is None:
        return usual_ratio
    return _wider(usual_ratio, tree.height_error_m / height_m)


def dbh_doubt_ratio(tree: Tree) -> float:
    """Relative sigma of the dbh; of a stem of one metre where no dbh was read.

    Parameters
    ----------
    tree : Tree
        The tree as read.

    Returns
    -------
    float
        The usual one, or the one stated where that is larger.
    """
    return _dbh_sigma_m(tree) / ((tree.dbh_cm or 100.0) / 100.0)


def dbh_excess_ratio(tree: Tree, dbh_cm: float) -> float:
    """What a stated error of the dbh adds to the usual one, for sizes that are taken from the dbh.

    Parameters
    ----------
    tree : Tree
        The tree as read.
    dbh_cm : float
        Diameter at breast height [cm].

    Returns
    -------
    float
        Relative sigma; 0 where the stated error is not larger. The usual error is part of the
        scatter about the curve that the size is taken from.
    """
    sigma = _dbh_sigma_m(tree)
    if sigma == bands.DBH.usual:
        return 0.0
    return math.sqrt(sigma**2 - bands.DBH.usual**2) / (dbh_cm / 100.0)


def stated_keys(tree: Tree) -> frozenset[str]:
    """Keys of the usual errors in whose place a larger one is stated.

    Parameters
    ----------
    tree : Tree
        The tree as read.

    Returns
    -------
    frozenset of str
        Keys of :mod:`fellwright.planning.bands`.
    """
    found = set()
    if _dbh_sigma_m(tree) != bands.DBH.usual:
        found.add(bands.DBH.key)
    usual = bands.HEIGHT.usual
    if tree.height_m is not None and height_doubt_ratio(tree, tree.height_m, usual) != usual:
        found.add(bands.HEIGHT.key)
    return frozenset(found)


def _dbh_sigma_m(tree: Tree) -> float:
    if tree.dbh_error_cm is None:
        return bands.DBH.usual
    return _wider(bands.DBH.usual, tree.dbh_error_cm / 100.0)


def _wider(usual: float, stated: float) -> float:
    # Written so that a stated error that is no number is not taken for the usual one.
    return usual if stated <= usual else stated
