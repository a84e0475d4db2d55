/**
 * Making what stands in a region like what was made anew, without touching what is as it should be: whatever is replaced
 * has to be styled, laid out and painted again, and loses focus and scroll.
 *
 * Rules of the file: things are told apart by `data-f`, else by their place. Fields are never kept, because what listens
 * to a field reads that field.
 */

import { takeOver } from "../shared/dom.js";

const FIELDS = new Set(["FORM", "INPUT", "SELECT", "TEXTAREA"]);

/** @param {Element} region @param {(Node|string)[]} content */
export function weave(region, content) {
  const wanted = content.filter((one) => one !== "").map((one) => (typeof one === "string" ? document.createTextNode(one) : one));
  const before = [...region.childNodes];
  wanted.forEach((fresh, place) => {
    const old = before[place];
    if (!old) region.append(fresh);
    else if (!isLike(old, fresh)) old.replaceWith(fresh);
    else if (fresh instanceof Element) become(/** @type {Element} */ (old), fresh);
  });
  for (const left of before.slice(wanted.length)) left.remove();
}

/**
 * Whether one can become the other.
 * @param {Node} old @param {Node} fresh
 */
function isLike(old, fresh) {
  if (old.nodeName !== fresh.nodeName || FIELDS.has(fresh.nodeName)) return false;
  if (fresh instanceof Element) return fresh.getAttribute("data-f") === /** @type {Element} */ (old).getAttribute("data-f");
  return old.nodeValue === fresh.nodeValue;
}

/** @param {Element} old @param {Element} fresh */
function become(old, fresh) {
  for (const name of old.getAttributeNames()) if (!fresh.hasAttribute(name)) old.removeAttribute(name);
  for (const { name, value } of fresh.attributes) if (old.getAttribute(name) !== value) old.setAttribute(name, value);
  takeOver(old, fresh);
  weave(old, [...fresh.childNodes]);
}
