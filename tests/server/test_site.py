"""The site answers to this machine only, with types and headers a browser insists on."""

from __future__ import annotations

import json
import re
import tomllib
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from fellwright.api import answer
from fellwright.server.site import CONTENT_POLICY, HEADERS, MOST_BYTES, make_site

REPOSITORY = Path(__file__).parents[2]
HERE = "http://127.0.0.1:8741"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A small app."""
    for name in ("index.html", "service-worker.js", "module.mjs", "a.wasm", "app.webmanifest"):
        (tmp_path / name).write_text("x", encoding="utf-8")
    return tmp_path


@pytest.fixture
def client(folder: Path) -> TestClient:
    return TestClient(make_site(folder), base_url=HERE)


def example() -> dict[str, Any]:
    tree, kit = (
        tomllib.loads((REPOSITORY / "examples" / name).read_text(encoding="utf-8"))
        for name in ("harrowlees-11.toml", "van-2.toml")
    )
    return {"tree": tree, "kit": kit, "draws": 64, "bare": True}


def test_page_and_the_policy_of_the_page_are_one() -> None:
    page = (REPOSITORY / "web" / "index.html").read_text(encoding="utf-8")
    found = re.search(r'http-equiv="Content-Security-Policy"\s+content="([^"]+)"', page)
    assert found is not None
    assert found.group(1) == CONTENT_POLICY


@pytest.mark.parametrize(
    ("path", "kind"),
    [
        ("/", "text/html"),
        ("/module.mjs", "text/javascript"),
        ("/a.wasm", "application/wasm"),
        ("/app.webmanifest", "application/json"),
    ],
)
def test_files_come_with_the_type_a_browser_insists_on(
    client: TestClient, path: str, kind: str
) -> None:
    response = client.get(path)
    assert response.status_code == 200
    assert response.headers["content-type"].partition(";")[0] == kind
    for name, value in HEADERS.items():
        assert response.headers[name] == value


def test_script_policy_allows_nothing_inline_and_no_other_host() -> None:
    assert "unsafe-inline" not in CONTENT_POLICY
    assert "'unsafe-eval'" not in CONTENT_POLICY
    assert "http" not in CONTENT_POLICY
    assert "*" not in CONTENT_POLICY


@pytest.mark.parametrize("host", ["example.org", "127.0.0.1.example.org", "192.168.1.4"])
def test_a_request_by_another_name_is_refused(client: TestClient, host: str) -> None:
    assert client.get("/", headers={"host": host}).status_code == 400


@pytest.mark.parametrize("path", ["/../pyproject.toml", "/%2e%2e/secret", "/no-such-file"])
def test_nothing_outside_the_app_is_served(client: TestClient, path: str) -> None:
    assert client.get(path).status_code == 404


def test_door_answers_as_the_library_does(client: TestClient) -> None:
    request = example()
    response = client.post("/answer/tip", json=request)
    assert response.status_code == 200
    assert response.json() == {"answer": answer("tip", request)}


def test_door_lists_every_fault_in_the_language_asked(client: TestClient) -> None:
    request = {**example(), "language": "de", "draws": 3}
    request["tree"]["tree"]["dbh_cm"] = -1
    response = client.post("/answer/tip", json=request)
    assert response.status_code == 422
    faults = response.json()["faults"]
    assert {fault["field"] for fault in faults} == {"tree.dbh_cm", "draws"}
    assert all(fault["rule"].startswith("muss") for fault in faults)


@pytest.mark.parametrize("body", ["", "[]", "{", "null", "[" * 100_000])
def test_what_is_no_request_is_one_fault(client: TestClient, body: str) -> None:
    response = client.post(
        "/answer/tip", content=body, headers={"content-type": "application/json"}
    )
    assert response.status_code == 422
    assert [fault["code"] for fault in response.json()["faults"]] == ["not-json"]


def test_an_unknown_question_is_a_fault(client: TestClient) -> None:
    response = client.post("/answer/everything", json={})
    assert response.status_code == 422
    assert response.json()["faults"][0]["field"] == "question"


def test_another_site_cannot_ask(client: TestClient) -> None:
    text = json.dumps(example())
    kind = {"content-type": "application/json"}
    assert client.post("/answer/tip", content=text).status_code == 415
    foreign = {**kind, "origin": "https://example.org"}
    assert client.post("/answer/tip", content=text, headers=foreign).status_code == 403
    own = {**kind, "origin": HERE}
    assert client.post("/answer/tip", content=text, headers=own).status_code == 200


def test_a_body_without_end_is_cut_off(client: TestClient) -> None:
    kind = {"content-type": "application/json"}
    response = client.post("/answer/tip", content=b" " * (MOST_BYTES + 1), headers=kind)
    assert response.status_code == 413
    assert client.post("/answer/tip", content=b"\xff\xfe", headers=kind).status_code == 400
