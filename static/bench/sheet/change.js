/** Carrying over to a live node what differs between what the server sent before and what it sends now. */

const WORDS = new Set(["text", "title", "desc"]);

/**
 * @param {Element} live @param {Element} before @param {Element} now of the same sort
 * @param {boolean} [within] whether its children are looked at too
 */
export function change(live, before, now, within = true) {
  if (within && before.isEqualNode(now)) return;
  for (const { name } of [...before.attributes]) if (!now.hasAttribute(name)) live.removeAttribute(name);
  for (const { name, value } of now.attributes) if (before.getAttribute(name) !== value) live.setAttribute(name, value);
  if (within) changeChildren(live, before, now);
}

/**
 * Most often something came or went at one place: what stands before and behind it stays.
 * @param {Element} live @param {Element} before @param {Element} now
 */
function changeChildren(live, before, now) {
  const [was, is, nodes] = [[...before.children], [...now.children], [...live.children]];
  const shorter = Math.min(was.length, is.length);
  let first = 0;
  while (first < shorter && isOfOneSort(was[first], is[first])) first += 1;
  let last = 0;
  while (last < shorter - first && isOfOneSort(was[was.length - 1 - last], is[is.length - 1 - last])) last += 1;
  const behind = nodes[was.length - last] ?? null;
  for (const gone of nodes.slice(first, was.length - last)) gone.remove();
  for (const come of is.slice(first, is.length - last)) live.insertBefore(document.importNode(come, true), behind);
  for (let place = 0; place < first; place += 1) renew(nodes[place], was[place], is[place]);
  for (let back = 1; back <= last; back += 1) renew(nodes[was.length - back], was[was.length - back], is[is.length - back]);
}

/**
 * Lines of one sort differ by their class, hooks by what they are of.
 * @param {Element} one @param {Element} other
 */
function isOfOneSort(one, other) {
  return one.nodeName === other.nodeName && ["class", "data-end", "data-element", "data-terminal"].every((name) => one.getAttribute(name) === other.getAttribute(name));
}

/**
 * The page fits words to their room in its own way, so that other words begin anew.
 * @param {Element} live @param {Element} before @param {Element} now
 */
function renew(live, before, now) {
  if (before.isEqualNode(now)) return;
  if (WORDS.has(now.nodeName)) live.replaceWith(document.importNode(now, true));
  else change(live, before, now);
}
