/**
 * Roles, names and tab stops on the groups of the server's drawing. The names come from the server's words.
 */

import { conductorOf, indexOf, letterOf, partOf } from "../job/acts.js";
import { isThere } from "../job/there.js";

/** @param {import("./things.js").Things} things @param {import("../job/types.js").Words} words
 *  @param {import("./picks.js").Picks} picks @param {string|null} stop the key that is the tab stop */
export function decorate(things, words, picks, stop) {
  const open = new Set(things.openEnds.map((end) => conductorOf(end.name)));
  for (const thing of things.parts) dress(thing, "group", words.parts[thing.name]?.aria);
  for (const thing of things.terminals) {
    const row = words.parts[partOf(thing.name)]?.terminals.find((one) => one.terminal === thing.name);
    dress(thing, "button", row?.aria);
  }
  // A button must not hold another button, so a wire with an open end is a group that can be focused.
  for (const thing of things.conductors) {
    dress(thing, open.has(thing.name) ? "group" : "button", words.conductors[thing.name]?.aria);
  }
  for (const spot of things.spots) {
    // What came off is read like the rest, and cannot be picked: it is not in the layout.
    if (!isThere(words, `${spot.sort}:${spot.name}`)) spot.pick = "";
    dress(spot, roleOf(spot), spokenOf(spot, words));
  }
  for (const thing of things.openEnds) {
    dress(thing, "button", words.conductors[conductorOf(thing.name)]?.ends[indexOf(thing.name)].aria);
  }
  for (const thing of things.everything) {
    const picked = picks.has(thing.pick ?? thing.key);
    put(thing.node, "tabindex", thing.key === stop ? "0" : "-1");
    if (thing.node.classList.contains("is-picked") !== picked) thing.node.classList.toggle("is-picked", picked);
    if (thing.node.getAttribute("role") === "button") put(thing.node, "aria-pressed", String(picked));
  }
}

/**
 * A part that is drawn with its screws holds buttons, so that it is none itself.
 * @param {import("./things.js").Thing} spot
 */
function roleOf({ pick, node }) {
  if (node.dataset.box) return "group";
  return pick ? "button" : "img";
}

/**
 * On other views a part shows by what of it stands there.
 * @param {import("./things.js").Thing} spot @param {import("../job/types.js").Words} words
 */
function spokenOf({ sort, name, node }, words) {
  const { change, changed } = node.dataset;
  if (change || changed) return node.querySelector(":scope > title")?.textContent ?? name;
  if (sort === "terminal") return words.parts[partOf(name)]?.terminals.find((one) => one.terminal === name)?.aria ?? `${letterOf(name)}, no longer there`;
  if (sort === "conductor") return words.conductors[name]?.aria;
  if (node.dataset.box) return node.querySelector(":scope > title")?.textContent ?? name;
  const written = [...node.querySelectorAll(":scope > title, :scope > text")].map((one) => one.textContent).slice(0, 2);
  return [...written, words.parts[name]?.label ?? name].join(", ");
}

/** @param {import("./things.js").Thing} thing @param {string} role @param {string|undefined} name */
function dress(thing, role, name) {
  put(thing.node, "data-key", thing.key);
  put(thing.node, "role", role);
  put(thing.node, "aria-label", name ?? thing.name);
}

/**
 * Most groups are as they were: nothing is told to whoever watches them.
 * @param {Element} node @param {string} name @param {string} value
 */
function put(node, name, value) {
  if (node.getAttribute(name) !== value) node.setAttribute(name, value);
}
