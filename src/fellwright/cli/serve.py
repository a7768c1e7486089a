"""`fellwright serve` and `fellwright app`: the web app on this machine, or as a folder."""

from __future__ import annotations

import webbrowser

import click

DEFAULT_PORT = 8741
DEMO = "#/demo"


@click.command("serve")
@click.option("--port", type=int, default=DEFAULT_PORT, show_default=True, help="0: any free one.")
@click.option("--open", "opens", is_flag=True, help="Open it in the browser of this machine.")
@click.option("--demo", is_flag=True, help="Begin at the example tree.")
def serve(port: int, opens: bool, demo: bool) -> None:
    """Serve the app to the browser of this machine, until Ctrl-C."""
    from fellwright.server import app_folder, listen, make_site
    from fellwright.server import serve as serve_on

    folder = app_folder()
    with listen(port) as taken:
        address = f"http://127.0.0.1:{taken.getsockname()[1]}/{DEMO if demo else ''}"
        click.echo(f"The app is at {address}\nThis machine only; Ctrl-C ends it.")
        if opens:
            webbrowser.open(address)
        serve_on(make_site(folder), taken)


@click.command("app")
@click.argument("folder", metavar="DIR")
def app(folder: str) -> None:
    """Write the app into DIR: static files for any HTTPS host."""
    from fellwright.server import write_app

    count = write_app(folder)
    click.echo(
        f"{count} files in {folder}. Any HTTPS host can serve them; a phone installs it there."
    )
