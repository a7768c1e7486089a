"""The JSON door: one question, one request, one response, the same on every face."""

from fellwright.api.door import answer, answer_read, options_from, style_from, with_lay

__all__ = ["answer", "answer_read", "options_from", "style_from", "with_lay"]
