"""Builds the web app into the package, so that a wheel carries it; FELLWRIGHT_WEB=skip does not."""

import os
import shutil
import subprocess
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

SWITCH = "FELLWRIGHT_WEB"


class WebAppHook(BuildHookInterface[Any]):
    """Runs the app's own build with npm."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:  # noqa: ARG002 - hatchling's signature
        """Build the app, or leave it out and say so."""
        if self.target_name != "wheel":
            return
        if os.environ.get(SWITCH) == "skip":
            self.app.display_info("web app left out: FELLWRIGHT_WEB=skip")
            return
        npm = shutil.which("npm")
        if npm is None:
            raise SystemExit(
                "Node.js 20 or newer with npm is needed to build the web app. "
                "Install it, or set FELLWRIGHT_WEB=skip for the library and the commands alone."
            )
        web = Path(self.root) / "web"
        for arguments in (("ci", "--no-audit", "--no-fund"), ("run", "build")):
            subprocess.run([npm, *arguments], cwd=web, check=True)
