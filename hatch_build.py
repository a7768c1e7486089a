"""Builds the web app into the package, so that a wheel carries it.

``FELLWRIGHT_WEB=skip`` leaves it out, a built one too: it may be older than the package.
``FELLWRIGHT_WEB=built`` takes the one that lies there, which ``make wheel`` has just built.
"""

import os
import shutil
import subprocess
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

SWITCH = "FELLWRIGHT_WEB"
APP = "src/fellwright/server/static"
"""Not committed, so a wheel has it only where it is named an artifact."""


class WebAppHook(BuildHookInterface[Any]):
    """Runs the app's own build with npm."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:  # noqa: ARG002 - hatchling's signature
        """Build the app and add it, or leave it out and say so."""
        if self.target_name != "wheel":
            return
        wanted = os.environ.get(SWITCH, "")
        if wanted == "skip":
            self.app.display_info(f"web app left out: {SWITCH}=skip")
            return
        if wanted != "built":
            self._build()
        elif not (Path(self.root) / APP / "index.html").is_file():
            raise SystemExit(f"{SWITCH}=built, but no web app is built. Run make app first.")
        build_data["artifacts"].append(APP)

    def _build(self) -> None:
        npm = shutil.which("npm")
        if npm is None:
            raise SystemExit(
                "Node.js 20 or newer with npm is needed to build the web app. "
                f"Install it, or set {SWITCH}=skip for the library and the commands alone."
            )
        web = Path(self.root) / "web"
        for arguments in (("ci", "--no-audit", "--no-fund"), ("run", "build")):
            subprocess.run([npm, *arguments], cwd=web, check=True)
