/**
 * Lettering on screen: held at a legible size or left away, never squeezed and never smaller.
 *
 * Sizes are in style/sheet.css; here only what a style sheet cannot do: letting go of the width on paper, and cutting
 * a name that its box has no room for. The whole name stays in the part's label.
 */

const LETTERING = "text.letter[textLength], text.name[textLength], text.label[textLength], text.volts[textLength]";
const NAME_PX = 12;
const NAME_UNITS = 13;
const BOX_MARGIN = 26;
/** Volts are written this far inside their screw. */
const VOLTS_AT = 96;
/** From this scale up there is room for volts beside every letter. */
const VOLTS_FROM = 0.6;

/** @param {SVGSVGElement|null} drawing after a swap */
export function freeLettering(drawing) {
  for (const text of /** @type {NodeListOf<SVGTextElement>} */ (drawing?.querySelectorAll(LETTERING) ?? [])) {
    if (text.classList.contains("name")) {
      text.dataset.whole = text.textContent ?? "";
      text.dataset.units = text.getAttribute("textLength") ?? "0";
    }
    text.removeAttribute("textLength");
    text.removeAttribute("lengthAdjust");
  }
}

/** @param {import("./surface.js").Surface} surface */
export function fitLettering({ things, view, host }) {
  host.dataset.volts = view.scale >= VOLTS_FROM ? "all" : "none";
  for (const { node, box, name } of things.parts) {
    if (box) node.style.setProperty("--shift-most", `${shiftMost(things, name, box.w)}px`);
    const text = /** @type {SVGTextElement|null} */ (node.querySelector("text.name"));
    const whole = text?.dataset.whole;
    if (!text || !box || whole === undefined) continue;
    const size = Math.max(NAME_UNITS, NAME_PX / view.scale);
    const share = (box.w - BOX_MARGIN) / ((Number(text.dataset.units) * size) / NAME_UNITS);
    const words = share >= 1 ? whole : `${whole.slice(0, Math.max(1, Math.floor(whole.length * share) - 2)).trimEnd()}…`;
    if (text.textContent !== words) text.textContent = words;
  }
}

/** How far volts may move inward: on a part with screws on both sides, not past its middle. */
function shiftMost(things, part, width) {
  const sides = new Set(things.terminals.filter((one) => one.name.startsWith(`${part}.`)).map((one) => one.side));
  return sides.has("left") && sides.has("right") ? Math.max(0, width / 2 - VOLTS_AT - 3) : VOLTS_AT;
}
