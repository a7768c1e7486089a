"""The site: the built app as static files and the JSON door beside it, for this machine only."""

from pathlib import Path

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import MutableHeaders
from starlette.middleware import Middleware
from starlette.middleware.trustedhost import TrustedHostMiddleware
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from fellwright.api.text_door import answer_text

__all__ = ["CONTENT_POLICY", "HEADERS", "make_site"]

CONTENT_POLICY = (
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; "
    "img-src 'self' data:; connect-src 'self'; worker-src 'self'; manifest-src 'self'; "
    "base-uri 'none'; form-action 'none'"
)
"""The same as in the page itself, where a plain host sends no headers."""

HEADERS = {
    "Content-Security-Policy": f"{CONTENT_POLICY}; frame-ancestors 'none'",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
    # The service worker keeps the files; the browser's own cache would only hide a new version.
    "Cache-Control": "no-cache",
}
TYPES = {".mjs": "text/javascript", ".wasm": "application/wasm", ".webmanifest": "application/json"}
"""What the table of the system may lack; a browser runs neither without its type."""

HOSTS = ("127.0.0.1", "localhost", "[::1]")
MOST_BYTES = 4_000_000
JSON = "application/json"


class TypedFiles(StaticFiles):
    """Static files whose types do not hang on the tables of the system."""

    async def get_response(self, path: str, scope: Scope) -> Response:
        """Answer with a file."""
        response = await super().get_response(path, scope)
        known = TYPES.get(Path(path).suffix)
        if known is not None and response.status_code == 200:
            response.headers["content-type"] = known
        return response


class WithHeaders:
    """Adds the headers of `HEADERS` to every answer."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass a request on and its answer back."""

        async def send_with(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                for name, value in HEADERS.items():
                    headers[name] = value
            await send(message)

        await self.app(scope, receive, send_with)


async def _answer(request: Request) -> Response:
    """One question: JSON in, JSON out, as the app's worker has it."""
    if request.headers.get("content-type", "").partition(";")[0].strip() != JSON:
        return Response("send application/json\n", 415)
    origin = request.headers.get("origin")
    if origin is not None and origin != f"{request.url.scheme}://{request.url.netloc}":
        return Response("not from another site\n", 403)
    body = b""
    async for part in request.stream():
        body += part
        if len(body) > MOST_BYTES:
            return Response("too large\n", 413)
    try:
        asked = body.decode("utf-8")
    except UnicodeDecodeError:
        return Response("send UTF-8\n", 400)
    text = await run_in_threadpool(answer_text, request.path_params["question"], asked)
    return Response(text, 200 if text.startswith('{"answer"') else 422, media_type=JSON)


def make_site(folder: Path) -> Starlette:
    """Make the site.

    Parameters
    ----------
    folder : Path
        The built app.

    Returns
    -------
    Starlette
        ``/`` and below is the app, ``POST /answer/{question}`` the JSON door: 200 with an answer,
        422 with the faults of the request. Only requests to this machine by name are answered.
    """
    return Starlette(
        routes=[
            Route("/answer/{question}", _answer, methods=["POST"]),
            Mount("/", TypedFiles(directory=folder, html=True)),
        ],
        middleware=[
            Middleware(WithHeaders),
            Middleware(TrustedHostMiddleware, allowed_hosts=list(HOSTS)),
        ],
    )
