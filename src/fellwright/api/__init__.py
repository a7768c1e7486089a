"""The JSON door: one question, one request, one response, the same on every face."""

from fellwright.api.door import answer

__all__ = ["answer"]
