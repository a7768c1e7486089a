"""Tests: which folder answers which question is in README.md beside this file.

A package, because a namespace named `tests` would lose to one that a dependency installs.
"""
