"""Sound wall of a hollow or rotten stem from test bores."""

from collections.abc import Sequence

__all__ = ["least_sound_wall_m"]


def least_sound_wall_m(depths_m: Sequence[float], bark_m: float) -> float:
    """Sound wall from the depths at which chips turn dark or soft.

    Parameters
    ----------
    depths_m : sequence of float
        Depth of each bore where its chips turn, from where it was started [m]; at least one.
    bark_m : float
        Thickness of the bark that the depths include [m]; 0 where they start on wood.

    Returns
    -------
    float
        Sound wall [m]: the least depth less the bark; 0 or less where no bore met sound wood.
        PRACTICE: the thinnest place counts, a mean would hide it.

    Raises
    ------
    ValueError
        If there is no bore.
    """
    if not depths_m:
        raise ValueError("depths_m must hold at least one bore, got none")
    return min(depths_m) - bark_m
