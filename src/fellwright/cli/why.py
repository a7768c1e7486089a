"""`fellwright why`: where a figure comes from."""

from __future__ import annotations

import json
from typing import Any

import click

from fellwright.api import FIGURE_NAMES, answer_why, plan_tip, style_from
from fellwright.cli.paragraph import rule, wrapped
from fellwright.cli.tip import Asked, options, plan_options, read_files
from fellwright.words import Style, render, say

MOST_MOVERS = 8


@click.command("why")
@click.argument("figure", metavar="FIGURE", type=click.Choice(sorted(FIGURE_NAMES)))
@click.option("--device", help="Device for usable_lift and available_push; else the chosen one.")
@options
def why(figure: str, device: str | None, **given: Any) -> None:
    """Why is FIGURE what it is? Formula, inputs, sources and what moves it, for TREE.

    FIGURE is one of the names of the answer: push, let_go_lift, side_use and so on.
    """
    asked = Asked(**given)
    trees, kit = read_files(asked)
    style = style_from(asked._asdict())
    chosen = plan_options(asked, bare=True)
    responses = [answer_why(plan_tip(tree, kit, chosen), figure, device, style) for tree in trees]
    if asked.as_json:
        whole: object = responses if len(responses) > 1 else responses[0]
        click.echo(json.dumps(whole, ensure_ascii=False, indent=2, allow_nan=False))
        return
    for response in responses:
        click.echo("\n".join(why_lines(response, style)))


def why_lines(r: dict[str, Any], style: Style) -> list[str]:
    """Lay a derivation out in 80 columns."""
    name = r["name"] if r["device"] is None else f"{r['name']}, {r['device']}"
    lines = [f"{r['tree'] or ''}: {name}"[:80], rule()]
    lines += wrapped(render(say("why.value", **r["value"]), style))
    lines += wrapped(render(say("why.middle", value=r["middle"]), style))
    lines += ["", f"  {render(say('why.formula'), style)}", *wrapped(r["formula"], indent=4)]
    lines += wrapped(render(say("why.physics", functions=", ".join(r["physics"])), style), indent=4)
    lines += ["", f"  {render(say('why.sensitivity'), style)}"]
    for mover in r["sensitivity"][:MOST_MOVERS]:
        lines.append(f"    {mover['name'][:44]:<46}{mover['low']:>12}{mover['high']:>12}")
    lines += ["", f"  {render(say('why.inputs'), style)}"]
    for item in r["inputs"]:
        sigma = (
            "" if item["sigma"] is None else render(say("why.sigma", sigma=item["sigma"]), style)
        )
        lines.append(f"    {item['name'][:36]:<38}{item['value']:>12}  {sigma}")
    lines += ["", f"  {render(say('why.sources'), style)}"]
    for source in r["sources"]:
        told = " ".join(part for part in (source["value"], source["source"]) if part)
        lines += wrapped(f"{source['name']}: {told}", f"{source['mark']} ", indent=4)
    return lines
