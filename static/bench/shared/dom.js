/**
 * Making elements without strings of markup, so that no text of a job can ever become markup.
 */

const SVG = "http://www.w3.org/2000/svg";

/**
 * @param {string} tag
 * @param {Record<string, any>} [attributes] `class`, `data-…`, `aria-…`, `on…` listeners; false and null are left out
 * @param {...(Node|string|null|undefined|false)} children
 * @returns {HTMLElement}
 */
export function make(tag, attributes = {}, ...children) {
  const node = document.createElement(tag);
  dress(node, attributes);
  for (const child of children) if (child !== null && child !== undefined && child !== false) node.append(child);
  return node;
}

/**
 * @param {string} tag
 * @param {Record<string, any>} [attributes]
 * @param {...(Node|string)} children
 * @returns {SVGElement}
 */
export function draw(tag, attributes = {}, ...children) {
  const node = document.createElementNS(SVG, tag);
  dress(node, attributes);
  node.append(...children);
  return node;
}

/** @param {Element} node @param {Record<string, any>} attributes */
function dress(node, attributes) {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === false || value === null || value === undefined) continue;
    if (name.startsWith("on")) listen(node, name.slice(2), value);
    else node.setAttribute(name, value === true ? "" : String(value));
  }
}

/**
 * What the listeners of each element do, by their events.
 * @type {WeakMap<Element, Record<string, (event: Event) => unknown>>}
 */
const deeds = new WeakMap();

/** @param {Element} node @param {string} name @param {(event: Event) => unknown} deed */
function listen(node, name, deed) {
  const own = deeds.get(node) ?? {};
  if (!(name in own)) node.addEventListener(name, (event) => own[name](event));
  own[name] = deed;
  deeds.set(node, own);
}

/**
 * An element that stays does from now on what the one would do that was made in its place.
 * @param {Element} staying @param {Element} fresh
 */
export function takeOver(staying, fresh) {
  const own = deeds.get(staying) ?? {};
  for (const name of Object.keys(own)) own[name] = () => undefined;
  for (const [name, deed] of Object.entries(deeds.get(fresh) ?? {})) listen(staying, name, deed);
}

/** @param {string} id @returns {HTMLElement} */
export function byId(id) {
  const node = document.getElementById(id);
  if (!node) throw new Error(`the page has no element ${id}`);
  return node;
}
