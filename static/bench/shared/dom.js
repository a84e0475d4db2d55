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
    if (name.startsWith("on")) node.addEventListener(name.slice(2), value);
    else node.setAttribute(name, value === true ? "" : String(value));
  }
}

/** @param {string} id @returns {HTMLElement} */
export function byId(id) {
  const node = document.getElementById(id);
  if (!node) throw new Error(`the page has no element ${id}`);
  return node;
}
