"""From metres in the plane of the lay to millimetres on paper."""

from collections.abc import Iterable
from typing import NamedTuple

from fellwright.draw.body import Place
from fellwright.draw.svg import Spot

__all__ = ["Frame"]


class Frame(NamedTuple):
    """Where the frame's origin lies on the page, and how many millimetres go to a metre."""

    origin: Spot
    mm_per_m: float

    def spot(self, place: Place) -> Spot:
        """Put a place on the page."""
        return Spot(
            self.origin.x + self.mm_per_m * place.x_m, self.origin.y - self.mm_per_m * place.z_m
        )

    def spots(self, places: Iterable[Place]) -> list[Spot]:
        """Put many places on the page."""
        return [self.spot(place) for place in places]

    def at(self, x_m: float, z_m: float) -> Spot:
        """Put the place with these coordinates on the page."""
        return self.spot(Place(x_m, z_m))
