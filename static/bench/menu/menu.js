/**
 * What can be done here: a menu for the thing that has the keyboard (Shift+F10, the Menu key), for the thing under the
 * mouse (second button), and for what is picked (a button in *Picked*). Arrows, Home, End, letters, Enter, Esc as menus
 * everywhere have them; what was chosen is done after focus is back where the menu came from.
 */

import { byId, make } from "../shared/dom.js";
import { deedsFor } from "./deeds.js";

/** @typedef {import("../bench.js").Bench} Bench @typedef {import("./deeds.js").Deed} Deed */

class Menu {
  /** @param {HTMLElement} home where it lives */
  constructor(home) {
    this.node = make("div", { role: "menu", class: "menu", id: "menu", hidden: true, tabindex: "-1" });
    home.append(this.node);
    /** @type {() => void} */
    this.back = () => {};
    this.onClosed = () => {};
    this.node.addEventListener("keydown", (event) => this.key(event));
    this.node.addEventListener("focusout", (event) => {
      if (!this.node.contains(/** @type {Node|null} */ (event.relatedTarget))) this.close(false);
    });
    addEventListener("pointerdown", (event) => {
      if (!this.node.hidden && !this.node.contains(/** @type {Node} */ (event.target))) this.close(false);
    }, true);
  }

  /** @param {string} title @param {Deed[]} deeds @param {{x: number, y: number}} at on the screen @param {() => void} back puts the keyboard back */
  open(title, deeds, at, back) {
    this.back = back;
    this.node.setAttribute("aria-label", title);
    const items = deeds.map((deed) =>
      make("button", { type: "button", role: "menuitem", tabindex: "-1", class: "row", "data-deed": deed.name, onclick: () => {
        this.close(true);
        deed.does();
      } }, deed.words),
    );
    this.node.replaceChildren(make("p", { class: "menu-title", "aria-hidden": "true" }, title), ...items);
    this.node.hidden = false;
    const { width, height } = this.node.getBoundingClientRect();
    this.node.style.left = `${Math.max(8, Math.min(at.x, innerWidth - width - 8))}px`;
    this.node.style.top = `${Math.max(8, Math.min(at.y, innerHeight - height - 8))}px`;
    items[0].focus();
  }

  /** @param {boolean} goBack whether the keyboard goes back to where it came from */
  close(goBack) {
    if (this.node.hidden) return;
    this.node.hidden = true;
    this.onClosed();
    if (goBack) this.back();
  }

  /** @returns {HTMLElement[]} */
  get items() {
    return /** @type {HTMLElement[]} */ ([...this.node.querySelectorAll("[role=menuitem]")]);
  }

  /** @param {KeyboardEvent} event */
  key(event) {
    const { items } = this;
    const at = items.indexOf(/** @type {HTMLElement} */ (document.activeElement));
    const to = { ArrowDown: (at + 1) % items.length, ArrowUp: (at - 1 + items.length) % items.length, Home: 0, End: items.length - 1 }[event.key];
    if (to !== undefined) items[to].focus();
    else if (event.key === "Escape" || event.key === "Tab") this.close(true);
    else if (/^\S$/.test(event.key)) this.spell(event.key, items, at);
    else return;
    if (event.key !== "Tab") event.preventDefault();
    event.stopPropagation();
  }

  /** @param {string} letter @param {HTMLElement[]} items @param {number} at */
  spell(letter, items, at) {
    const turned = [...items.slice(at + 1), ...items.slice(0, at + 1)];
    turned.find((item) => item.textContent?.toLowerCase().startsWith(letter.toLowerCase()))?.focus();
  }
}

/** @param {Bench} bench */
export function installMenu(bench) {
  const menu = new Menu(bench.shown.main);
  const button = /** @type {HTMLButtonElement} */ (byId("acts-open"));
  menu.onClosed = () => button.setAttribute("aria-expanded", "false");
  /** @param {string|null|undefined} key @param {{x: number, y: number}} at @param {() => void} back */
  const open = (key, at, back) => {
    const found = key ? deedsFor(bench, key) : null;
    if (!found || found.deeds.length === 0) return bench.speech.say("Nothing can be done here.");
    bench.hover(null);
    return menu.open(found.title, found.deeds, at, back);
  };
  bench.openMenu = () => {
    const key = bench.focus.key;
    const thing = bench.surface.things.get(key);
    open(key, onPage(bench, thing ? placeOf(bench, thing) : { x: 0, y: 0 }), () => bench.focus.to(bench.focus.key, false));
  };
  button.addEventListener("click", () => {
    const { left, bottom } = button.getBoundingClientRect();
    open(bench.picks.last, { x: left, y: bottom + 4 }, () => button.focus());
    button.setAttribute("aria-expanded", String(!menu.node.hidden));
  });
  const enable = () => (button.disabled = bench.picks.keys.size !== 1);
  bench.picks.on("changed", enable);
  bench.shown.on("shown", enable);
  bench.surface.host.addEventListener("contextmenu", (event) => {
    const { pointerType } = /** @type {PointerEvent} */ (event);
    // A finger that rests on the sheet means nothing, and a second button during a drag ends the drag.
    if (pointerType !== "mouse" || bench.presses.press) return;
    const hit = bench.presses.hitAt(bench.surface.view.toSheet(bench.surface.screenPoint(/** @type {PointerEvent} */ (event))), "mouse");
    if (!hit.key) return;
    bench.focus.to(hit.sort === "end" && !bench.surface.things.looking ? endKey(bench, hit) : hit.key, false);
    open(hit.key, { x: event.clientX, y: event.clientY }, () => bench.focus.to(bench.focus.key, false));
  });
}

/**
 * A landed end cannot have the keyboard; its conductor can.
 * @param {Bench} bench @param {import("../sheet/hit.js").Hit} hit
 */
function endKey(bench, hit) {
  const thing = bench.surface.things.get(hit.key);
  return thing?.landed ? `conductor:${hit.name.slice(0, hit.name.lastIndexOf("."))}` : hit.key;
}

/** @param {Bench} bench @param {import("../sheet/things.js").Thing} thing */
function placeOf(bench, thing) {
  const point = thing.box ? { x: thing.box.x + thing.box.w / 2, y: thing.box.y } : thing.at;
  const { x, y } = bench.surface.view.toScreen(point);
  return { x: x + 16, y: y + 16 };
}

/** @param {Bench} bench @param {{x: number, y: number}} screen px in the host */
function onPage(bench, { x, y }) {
  const box = bench.surface.host.getBoundingClientRect();
  return { x: box.left + x, y: box.top + y };
}
