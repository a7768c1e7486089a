"""Timings of what people wait for, as ratios within one run."""
