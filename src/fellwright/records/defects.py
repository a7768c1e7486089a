"""The words for what is wrong with a stem, and what each group of them leads to."""

from __future__ import annotations

LODGED = ("lodged", "hung", "hung tree in ring")
"""R2: a hang-up, in or on this tree or in the ring."""

OUT_OF_SCOPE = (
    "split",
    "barbered",
    "burnt",
    "uprooted",
    "root plate",
    "storm tension",
    "climbed",
    "topped",
)
"""R3: stems this arithmetic does not know."""

HOLLOW = ("hollow", "cavity", "rot")
"""R4: the sound wall decides; unmeasured, it must be measured."""

DEAD_OVERHEAD = ("dead limbs", "dead top", "dieback", "dead")
"""R10: wood that comes down under hammering."""

CRACKED = ("crack", "wound", "canker")
"""The stem may not hold a hard preload (R10); the look's answer on soundness is no."""

LOADED_CROWN = ("ivy", "snow", "ice")
"""Mass in the crown that no table holds."""

SHAPE = ("fork", "sweep", "buttress", "burl")
"""Form that bends the estimate of mass, balance point or hinge."""

DEFECTS: tuple[str, ...] = (
    *LODGED,
    *OUT_OF_SCOPE,
    *HOLLOW,
    *DEAD_OVERHEAD,
    *CRACKED,
    *LOADED_CROWN,
    *SHAPE,
)
"""Every word the key `defects` takes."""
