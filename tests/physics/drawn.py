"""Hypothesis strategies for trees, stumps and hinges within the sizes the engine answers for."""

import math

from hypothesis import strategies as st

from fellwright.physics.hinge import HingeLaw, hinge_law

diameters_m = st.floats(0.10, 1.2)
notch_shares = st.floats(0.10, 0.40)
hinge_shares = st.floats(0.02, 0.20)
bending_pa = st.floats(20e6, 90e6)
azimuths_rad = st.floats(-math.pi, 2.0 * math.pi)
heights_m = st.floats(2.0, 20.0)
weights_n = st.floats(500.0, 200e3)
backs_m = st.floats(-3.0, 4.0)
frictions = st.floats(0.02, 0.5)
forces_n = st.floats(100.0, 300e3)


@st.composite
def stumps(draw: st.DrawFn) -> tuple[float, float, float]:
    """Diameter, notch depth and hinge thickness [m]."""
    diameter = draw(diameters_m)
    return diameter, draw(notch_shares) * diameter, draw(hinge_shares) * diameter


@st.composite
def laws(draw: st.DrawFn, least_residual: float = 0.3) -> HingeLaw:
    """Law of a hinge: peak 50 N.m to 50 kN.m, first yield at 0.1 to 2 degrees."""
    return hinge_law(
        draw(st.floats(50.0, 50e3)),
        draw(st.floats(0.002, 0.035)),
        draw(st.floats(1.0, 4.0)),
        draw(st.floats(least_residual, 1.0)),
    )
