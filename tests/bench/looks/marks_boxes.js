/**
 * What each case of the sheet of marks comes to: boxes of all that is written or stands for something, and a signature
 * without any colour: shapes, weights, dashes, whether filled with ink or with paper.
 */
() => {
  const ROOM = 2; // Boxes of text hold room for accents and tails.
  const WRITTEN = ".drawing text:is(.letter, .volts, .name), .hand .mark-words";
  const STANDS = ".mark-tag path, .mark-advice rect, .mark-flag-cloth, .mark-pin .mark-head, circle.mark-ring";
  const paper = getComputedStyle(document.querySelector(".hand .paper")).fill;
  const round = (box, room) => [box.left, box.top + room, box.right, box.bottom - room];
  const seen = (node) => node.checkVisibility({ visibilityProperty: true, opacityProperty: true }) && node.getBBox().width > 0;
  const inked = (style) => (style.fill === "none" ? "" : style.fill === paper ? "paper" : "ink");
  const shape = (node) => {
    const style = getComputedStyle(node);
    const outline = (node.getAttribute("d") ?? "").replace(/[^A-Z]/g, "").slice(0, 6);
    return [node.tagName, outline, style.stroke === "none" ? "" : style.strokeWidth, style.strokeDasharray, inked(style), node.tagName === "text" ? node.textContent : ""].join(" ");
  };
  return [...document.querySelectorAll("figure[data-case]")].map((figure) => {
    const frame = figure.getBoundingClientRect();
    const within = (box) => box.right > frame.left && box.left < frame.right && box.bottom > frame.top && box.top < frame.bottom;
    const boxes = [];
    for (const node of figure.querySelectorAll(`${WRITTEN}, ${STANDS}`)) {
      const box = node.getBoundingClientRect();
      if (!seen(node) || !within(box) || node.closest(".mark-tag text, .mark-advice text, .mark-pin text")) continue;
      boxes.push({ what: `${node.getAttribute("class") ?? node.parentElement.getAttribute("class")} ${node.textContent}`, box: round(box, node.tagName === "text" ? ROOM : 0) });
    }
    const marks = [...figure.querySelectorAll(".hand.over :is(path, rect, circle, line, text)")].filter(seen).map(shape);
    const hand = figure.querySelectorAll(".hand.over > g > *");
    return { case: figure.dataset.case, pitch: Number(figure.dataset.pitch), boxes, signature: [...new Set(marks)].sort().join("\n"), marks: hand.length, frame: [frame.left, frame.top, frame.width, frame.height] };
  });
}
