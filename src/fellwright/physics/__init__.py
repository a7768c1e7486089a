"""Mechanics of trees, cuts and wedges: one idea a file, floats in, floats out."""
