/** What has focus: its name, whether that is drawn, and whether it lies on the screen with nothing over it. */
async () => {
  // Our own ring is drawn in the next frame.
  await new Promise(requestAnimationFrame);
  const node = document.activeElement;
  if (node === document.body) return { name: "the page", drawn: true, clear: true };
  const box = node.getBoundingClientRect();
  const style = getComputedStyle(node);
  const outlined = style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2;
  const drawn = node.closest(".drawing") ? document.querySelector("[data-hand=focus] > *") !== null : outlined;
  const [left, right] = [Math.max(box.left, 0), Math.min(box.right, innerWidth)];
  const [top, bottom] = [Math.max(box.top, 0), Math.min(box.bottom, innerHeight)];
  const shares = [0.1, 0.5, 0.9];
  const spots = shares.flatMap((x) => shares.map((y) => [left + x * (right - left), top + y * (bottom - top)]));
  const isOwn = (found) => {
    if (!found) return false;
    const sheet = node.closest(".sheet");
    return node.contains(found) || found.contains(node) || found.closest("label")?.contains(node) || (sheet !== null && sheet === found.closest(".sheet"));
  };
  const clear = right > left && bottom > top && spots.some(([x, y]) => isOwn(document.elementFromPoint(x, y)));
  const words = (node.textContent ?? "").trim().slice(0, 30);
  return { name: `${node.tagName}#${node.id} ${node.dataset.key ?? ""} ${words}`, drawn, clear };
}
