/**
 * What each case of the sheet of marks comes to: boxes of all that is written or stands for something, and a signature
 * without any colour: shapes, weights, dashes, whether filled with ink or with paper.
 */
() => {
  const ROOM = 2; // Boxes of text hold room for accents and tails.
  const WRITTEN = ".drawing text:is(.letter, .volts, .name), .hand .mark-words";
  const STANDS = ".mark-tag path, .mark-advice rect, .mark-flag-cloth, .mark-pin .mark-head, circle.mark-ring";
  // A drawing of two layouts has its marks in itself, each word of it at its size on paper.
  const TOLD = ".drawing text, .hand .mark-words";
  const TELLS = ".drawing :is(.landed-here, .came-off, .screw-gone, .end > circle)";
  const SHAPES = ":is(path, rect, circle, line, text)";
  const CHANGED = `.drawing [data-change] ${SHAPES}:not(.label, .letter, .kind, .terminal > circle, .end text)`;
  // What looks as if nothing had become of it is no mark.
  const PLAIN = ".drawing .conductor:not([data-change]) > .wire, .drawing g:not([data-change]) > .part > rect, .drawing [data-state=fitted] path";
  const paper = getComputedStyle(document.querySelector(".hand .paper")).fill;
  const round = (box, room) => [box.left, box.top + room, box.right, box.bottom - room];
  const seen = (node) => node.checkVisibility({ visibilityProperty: true, opacityProperty: true }) && node.getBBox().width > 0;
  const inked = (style) => (style.fill === "none" ? "" : style.fill === paper ? "paper" : "ink");
  // Of the name of a part only what became of it is a mark.
  const words = (node) => (node.matches(".name") ? node.textContent.replace(/[^:]*$/, "") : node.textContent);
  const shape = (node) => {
    const style = getComputedStyle(node);
    const outline = (node.getAttribute("d") ?? "").replace(/[^A-Za-z]/g, "").slice(0, 6);
    return [node.tagName, outline, style.stroke === "none" ? "" : style.strokeWidth, style.strokeDasharray, inked(style), node.tagName === "text" ? words(node) : ""].join(" ");
  };
  const boxesOf = (figure, selector, within) => {
    const boxes = [];
    for (const node of figure.querySelectorAll(selector)) {
      const box = node.getBoundingClientRect();
      if (!seen(node) || !within(box) || node.closest(".mark-tag text, .mark-advice text, .mark-pin text")) continue;
      const one = { what: `${node.getAttribute("class") ?? node.parentElement.getAttribute("class")} ${node.textContent}`, box: round(box, node.tagName === "text" ? Math.min(ROOM, box.height / 6) : 0) };
      // The two strokes of a cross are one mark.
      if (!boxes.some(({ what, box }) => what === one.what && box.join() === one.box.join())) boxes.push(one);
    }
    return boxes;
  };
  return [...document.querySelectorAll("figure[data-case]")].map((figure) => {
    const frame = figure.getBoundingClientRect();
    const within = (box) => box.right > frame.left && box.left < frame.right && box.bottom > frame.top && box.top < frame.bottom;
    const twoLayouts = figure.dataset.view === "changes";
    const changed = twoLayouts ? [...figure.querySelectorAll(CHANGED)].filter((node) => seen(node) && within(node.getBoundingClientRect())) : [];
    const plain = new Set([...figure.querySelectorAll(PLAIN)].map(shape));
    const laid = [...figure.querySelectorAll(`.hand:is(.over, .held) ${SHAPES}`)].filter(seen);
    const hand = figure.querySelectorAll(".hand:is(.over, .held) > g > *");
    return {
      case: figure.dataset.case,
      pitch: Number(figure.dataset.pitch),
      boxes: boxesOf(figure, twoLayouts ? `${TOLD}, ${TELLS}, ${STANDS}` : `${WRITTEN}, ${STANDS}`, within),
      signature: [...new Set([...laid.map(shape), ...changed.map(shape).filter((one) => !plain.has(one))])].sort().join("\n"),
      marks: hand.length + changed.length,
      frame: [frame.left, frame.top, frame.width, frame.height],
    };
  });
}
