/** What is tapped by itself and is narrower or lower than so many pixels; links within sentences are left out. */
(least) => {
  const isWord = (node) => node.matches("a, .link") && node.closest("p, dd, dt, li, figcaption, .finding") !== null;
  return [...document.querySelectorAll("button, summary, select, input, a[href], [role=option]")]
    .filter((node) => node.checkVisibility() && !node.closest(".unseen, .skip") && !isWord(node))
    .map((node) => ({ node, box: (node.closest("label") ?? node).getBoundingClientRect() }))
    .filter(({ box }) => box.width > 0 && (box.width < least - 0.5 || box.height < least - 0.5))
    .map(({ node, box }) => `#${node.id} "${node.textContent.trim().slice(0, 24)}" ${box.width} by ${box.height}`);
}
