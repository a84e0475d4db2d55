(least) => {
  // Targets that are too small to hit (WCAG 2.2, 2.5.8), told as text. A target may be smaller where it stands in a line
  // of text, or where a circle of that size around its middle touches no other target. What lies on the sheet is left
  // out: each screw and wire there has a row of its own elsewhere.
  const SORTS = "a[href], button, input, select, textarea, summary, [role=menuitem], [role=option], [role=button]";
  const seen = (node) => {
    const { width, height } = node.getBoundingClientRect();
    return width > 1 && height > 1 && node.checkVisibility({ visibilityProperty: true }) && !node.closest("[inert]");
  };
  const modal = document.querySelector("dialog:modal");
  const boxOf = (node) => (node.labels?.[0]?.contains(node) && ["checkbox", "radio"].includes(node.type) ? node.labels[0] : node).getBoundingClientRect();
  const all = [...document.querySelectorAll(SORTS)].filter((node) => seen(node) && !node.closest("#sheet") && (!modal || modal.contains(node)) && !clippedAway(node));
  const inLine = (node) => getComputedStyle(node).display.startsWith("inline") && !getComputedStyle(node).display.includes("flex") && hasTextBeside(node);
  const boxes = all.map((node) => ({ node, box: boxOf(node) }));
  const small = boxes.filter(({ node, box }) => (box.width < least - 0.5 || box.height < least - 0.5) && !inLine(node));
  const near = (box, other) => {
    const [x, y] = [box.left + box.width / 2, box.top + box.height / 2];
    return Math.hypot(Math.max(other.left - x, 0, x - other.right), Math.max(other.top - y, 0, y - other.bottom)) < least / 2;
  };
  return small
    .filter(({ node, box }) => boxes.some((other) => other.node !== node && !other.node.contains(node) && !node.contains(other.node) && near(box, other.box)))
    .map(({ node, box }) => `${node.outerHTML.slice(0, 120)} is ${Math.round(box.width)} x ${Math.round(box.height)}`);

  function hasTextBeside(node) {
    const block = node.parentElement;
    return [...block.childNodes].some((one) => one !== node && !one.contains?.(node) && one.textContent.trim().length > 1);
  }

  function clippedAway(node) {
    return getComputedStyle(node).clipPath !== "none" || node.closest(".unseen, .skip") !== null;
  }
};
