/**
 * What is too pale on a page, by computed styles: text under 4.5 to 1, marks and edges under 3 to 1 (WCAG 2.2, 1.4.3
 * and 1.4.11). Backgrounds are those of the nearest element that paints one; on the sheet both paper and desk may lie
 * behind. Returns one line for each fault.
 */
() => {
  const TEXT = 4.5;
  const MARK = 3;

  const probe = document.body.appendChild(document.createElement("i"));
  const canvas = new OffscreenCanvas(1, 1).getContext("2d", { willReadFrequently: true });
  /** Any CSS colour as red, green, blue and opacity; the canvas reads what the style sheet may say. */
  const rgba = (words) => {
    canvas.clearRect(0, 0, 1, 1);
    canvas.fillStyle = words;
    canvas.fillRect(0, 0, 1, 1);
    const [r, g, b, a] = canvas.getImageData(0, 0, 1, 1).data;
    return { rgb: [r, g, b], a: a / 255 };
  };
  const token = (name) => {
    probe.style.setProperty("color", `var(${name})`);
    return rgba(getComputedStyle(probe).color).rgb;
  };
  const light = (rgb) => {
    const [r, g, b] = rgb.map((one) => one / 255).map((one) => (one <= 0.04045 ? one / 12.92 : ((one + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const ratio = (a, b) => {
    const [more, less] = [light(a), light(b)].sort((x, y) => y - x);
    return (more + 0.05) / (less + 0.05);
  };
  const behind = (node) => {
    for (let at = node; at; at = at.parentElement) {
      const { rgb, a } = rgba(getComputedStyle(at).backgroundColor);
      if (a === 1) return rgb;
    }
    return [255, 255, 255];
  };
  const seen = (node) => node.checkVisibility({ visibilityProperty: true, opacityProperty: true }) && node.getClientRects().length > 0;
  const named = (node) => `${node.tagName.toLowerCase()}${node.id ? `#${node.id}` : ""}.${node.getAttribute("class") ?? ""} "${(node.textContent ?? "").trim().slice(0, 30)}"`;

  const faults = [];
  const hold = (node, what, colour, grounds, least) => {
    for (const ground of grounds) {
      const found = ratio(colour, ground);
      if (found < least) faults.push(`${what} of ${named(node)}: ${found.toFixed(2)}, ${colour} on ${ground}`);
    }
  };
  const writes = (node) => [...node.childNodes].some((one) => one.nodeType === Node.TEXT_NODE && one.data.trim() !== "");
  const off = (node) => node.closest(":disabled, [aria-disabled=true]") !== null;

  /** What a mark writes on: the last filled shape before the words. */
  const plateOf = (text) => {
    if (text.closest(".drawing")) return null;
    const plates = [...text.parentElement.querySelectorAll(":scope > :is(path, rect, circle)")].map((one) => getComputedStyle(one).fill).filter((fill) => fill !== "none");
    return plates.length > 0 ? [rgba(plates.at(-1)).rgb] : null;
  };

  const sheet = [token("--paper"), token("--desk")];
  for (const node of document.body.querySelectorAll("*")) {
    if (!seen(node) || node.closest(".unseen, .skip:not(:focus)")) continue;
    const style = getComputedStyle(node);
    if (node instanceof SVGElement) {
      if (!node.closest(".sheet, .finding-mark")) continue;
      if (node instanceof SVGTextElement && writes(node)) hold(node, "text", rgba(style.fill).rgb, plateOf(node) ?? sheet, TEXT);
      // A tint means nothing, and paper under a mark is the gap around it.
      const carries = /^mark-(?!between|focus-gap)/.test(node.getAttribute("class") ?? "") || node.closest(".mark-tag, .mark-advice, .drawing .wire");
      if (carries && node instanceof SVGGeometryElement) {
        const inks = [style.stroke, style.fill].filter((one) => one !== "none").map((one) => rgba(one).rgb);
        const best = Math.max(...inks.map((ink) => Math.min(...sheet.map((ground) => ratio(ink, ground)))));
        if (inks.length > 0 && best < MARK) faults.push(`mark ${named(node)}: ${best.toFixed(2)}`);
      }
      continue;
    }
    const ground = behind(node);
    if (writes(node) && !off(node)) hold(node, "text", rgba(style.color).rgb, [ground], TEXT);
    if (node.matches("button:not(.link, .row), .button, select, input:not([type=checkbox]), summary") && !off(node) && style.borderTopStyle !== "none" && parseFloat(style.borderTopWidth) > 0) {
      hold(node, "edge", rgba(style.borderTopColor).rgb, [behind(node.parentElement)], MARK);
    }
  }
  probe.remove();
  return faults;
}
