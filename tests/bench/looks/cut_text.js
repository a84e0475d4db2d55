/** What is written and cut off at the edge of its box, where it cannot be scrolled to. */
() => {
  const WRITTEN = "button, .button, select, h1, h2, h3, p, li, dt, dd, legend, label, .letter, .use, .does";
  const isCut = (node) => {
    const { overflow, overflowY } = getComputedStyle(node);
    if (overflow === "visible" || ["auto", "scroll"].includes(overflowY)) return false;
    return node.scrollWidth > node.clientWidth + 1 || node.scrollHeight > node.clientHeight + 1;
  };
  return [...document.querySelectorAll(WRITTEN)]
    .filter((node) => node.checkVisibility() && !node.closest(".unseen, .skip, svg") && isCut(node))
    .map((node) => `#${node.id} ${node.textContent.trim().slice(0, 40)}`);
}
