"""Fellwright does the felling arithmetic for one standing tree before the saw starts."""

__version__ = "0.1.0"
