"""A new drawing under the hand: nothing that did not change is touched, nothing that is held is lost."""

from __future__ import annotations

from playwright.sync_api import expect

from tests.bench.conftest import LAPTOP, TABLET, Open
from tests.bench.layouts import HEATING, HEATING_WIRES

LABEL = "/layouts/as-left/parts/xf/label"


def test_groups_that_did_not_change_keep_their_nodes_and_the_view_stays(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.page.click("#zoom-in")
    view = hands.matrix()
    hands.page.evaluate("document.querySelectorAll('#sheet [data-key]').forEach(node => { node.wasHere = true; })")
    hands.pull("fb.G", "tc.G")
    kept = hands.page.eval_on_selector_all(
        "#sheet [data-key]", "nodes => nodes.filter(node => node.wasHere).map(node => node.dataset.key)"
    )
    assert {"part:xf", "conductor:w1", "conductor:w2", "terminal:xf.R"} <= set(kept)
    assert hands.matrix() == view


MARK_WHAT_STANDS = """([where, what]) => document.querySelectorAll(`${where} ${what}`)
  .forEach((node) => { node.wasHere = true; })"""
HOW_MANY_STAND = """([where, what]) => {
  const nodes = [...document.querySelectorAll(`${where} ${what}`)];
  return [nodes.filter((node) => node.wasHere).length, nodes.length];
}"""


def test_of_a_group_that_changed_only_what_changed_is_made_anew(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.page.evaluate(MARK_WHAT_STANDS, ["#sheet", "[data-terminal], #sheet .letter, #sheet .wire"])
    wire = hands.page.locator('#sheet [data-conductor="w4"]')
    expect(wire).to_have_attribute("data-live", "cold")
    hands.page.click('[data-call="tc=heat-1"]')
    expect(wire).to_have_attribute("data-live", "carrying")
    expect(hands.page.locator('#sheet [data-terminal="fb.W"] .volts')).to_contain_text("V")
    expect(wire.locator(".wire").first).to_have_attribute("stroke-width", "3.5")
    expect(wire.locator(".head").first).to_be_attached()
    stood, all_of_them = hands.page.evaluate(HOW_MANY_STAND, ["#sheet", "[data-terminal], #sheet .letter"])
    assert stood == all_of_them
    hands.page.click('[data-call="tc="]')
    expect(wire).to_have_attribute("data-live", "cold")
    expect(wire.locator(".head")).to_have_count(0)


def test_rows_stay_where_nothing_changed_in_them_and_do_what_they_say_now(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.page.locator('[data-key="part:fb"]').focus()
    hands.press("Space")
    rows = ["#picked-content", "button"]
    hands.page.evaluate(MARK_WHAT_STANDS, rows)
    hands.pull("xf.C", "tc.G")
    hands.page.locator('[data-key="part:fb"]').focus()
    hands.press("Space")
    stood, all_of_them = hands.page.evaluate(HOW_MANY_STAND, rows)
    assert stood == all_of_them
    with hands.saved():
        hands.page.click('#picked-content [data-f="picked:w4.0:off"]')
    hands.page.click('#picked-content [data-row="fb.W"]')
    with hands.saved():
        hands.page.mouse.click(*hands.at_screw("tc.W"))
    assert ["fb.W", "tc.W"] in [one["ends"] for one in hands.layout()["conductors"].values()]


TWICE = """async (drawings) => {
  const { Drawing } = await import("/static/bench/sheet/swap.js");
  const host = document.createElement("div");
  const drawing = new Drawing(host);
  return drawings.map((rungs) => {
    const lines = rungs.map((d) => `<path data-conductor="w1" d="${d}"/>`);
    const head = '<svg xmlns="http://www.w3.org/2000/svg"><title>t</title><desc>d</desc>';
    drawing.put([head, '<g data-layer="rungs">', ...lines, "</g>", "</svg>"].join("\\n"));
    return [...host.querySelectorAll("path")].map((path) => path.getAttribute("d"));
  });
}"""


def test_what_stands_at_several_places_is_swapped_at_each(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING)
    drawings = [["M0 0", "M1 1"], ["M0 0", "M2 2"], ["M2 2", "M2 2", "M3 3"], ["M3 3"], []]
    assert hands.page.evaluate(TWICE, drawings) == drawings


def test_the_last_wire_leaves_the_sheet_and_comes_back_to_it(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, ("fb.G", "tc.G"))
    wires = hands.page.locator("#sheet .drawing [data-conductor]")
    expect(wires).to_have_count(1)
    hands.page.locator('[data-key="conductor:w1"]').focus()
    with hands.saved():
        hands.press("Delete")
    expect(wires).to_have_count(0)
    hands.undo()
    expect(wires).to_have_count(1)


def test_a_drawing_that_arrives_during_a_drag_waits_and_the_drop_lands(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    start, target = hands.at_screw("fb.G"), hands.at_screw("tc.G")
    hands.change_elsewhere({"op": "replace", "path": LABEL, "value": "Renamed elsewhere"})
    hands.drag(start, ((start[0] + target[0]) / 2, target[1] + 60), drop=False)
    hands.page.evaluate("document.querySelector('[data-call=\"tc=heat-1\"]').click()")
    expect(hands.page.locator("#bench")).to_have_attribute("data-revision", "2")
    name = hands.page.locator('[data-part="xf"] .name')
    expect(name).not_to_have_text("Renamed elsewhere")
    expect(hands.page.locator('[data-hand="carried"] .mark-pulled')).to_be_attached()
    hands.page.mouse.move(*target, steps=3)
    with hands.saved():
        hands.page.mouse.up()
    assert ["fb.G", "tc.G"] in [one["ends"] for one in hands.layout()["conductors"].values()]
    expect(name).to_have_text("Renamed elsewhere")


def test_what_is_held_when_its_source_vanishes_is_put_back_in_words(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.page.locator('[data-key="conductor:w4"]').focus()
    hands.press("Enter")
    expect(hands.page.locator("#in-hand")).to_be_visible()
    hands.change_elsewhere({"op": "remove", "path": "/layouts/as-left/conductors/w4"})
    hands.page.click('[data-call="tc=fan"]')
    expect(hands.page.locator("#in-hand")).to_be_hidden()
    assert hands.page.evaluate("document.activeElement !== document.body")


def test_every_screw_at_fit_on_a_tablet_is_the_one_that_is_tapped(opens: Open) -> None:
    hands = opens(TABLET)
    hands.open_job(hands.copy_demo("post-office-dual-fuel"))
    screws = hands.page.eval_on_selector_all("#sheet [data-terminal]", "nodes => nodes.map(n => n.dataset.terminal)")
    height = hands.page.locator("#sheet").bounding_box()
    assert height
    for screw in screws[::4]:
        x, y = hands.at(f'[data-terminal="{screw}"]')
        if y > height["y"] + height["height"] - 80:
            continue
        hands.tap((x, y))
        expect(hands.page.locator("#in-hand-words")).to_contain_text(f"new conductor from {screw.split('.')[1]}, ")
        expect(hands.page.locator(f'[data-terminal="{screw}"]')).to_have_attribute("aria-pressed", "true")
        hands.page.locator("#put-back").tap()


def test_nothing_moves_by_itself(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.pull("fb.R", "fb.C")
    assert hands.page.evaluate("document.getAnimations().length") == 0
