/**
 * Under the sheet: exactly the marks that are on it now, those of the drawing and those of our own layer, each drawn
 * small with its meaning. It is read off what stands there, so that it cannot say more or less.
 */

import { byId, draw, make } from "../shared/dom.js";
import { keep, recall } from "../shared/remember.js";
import { adviceMark, brackets, ring, tag } from "./marks.js";

const WIDE = 60;
const HIGH = 26;
const MIDDLE = HIGH / 2;

const line = (/** @type {string} */ name) => draw("path", { d: `M4 ${MIDDLE}H56`, class: name });
const cased = (/** @type {string} */ outer, /** @type {string} */ inner) => [line(outer), line(inner), line("mark-lifted")];
const box = { x: 18, y: 7, w: 24, h: 12 };

/**
 * What our own layer may hold: where it is found, what it means, how it looks small.
 * @type {[string, string, () => SVGElement[]][]}
 */
const OURS = [
  [".mark-brackets", "picked", () => [brackets(box, 4, 6)]],
  [".mark-rails", "picked conductor", () => cased("mark-rails", "mark-between")],
  [".mark-cable", "conductor of the picked cable", () => [line("mark-cable"), line("mark-lifted")]],
  [".mark-handle", "grab here to move this end", () => [draw("rect", { x: 24, y: MIDDLE - 6, width: 12, height: 12, class: "mark-handle" })]],
  [".mark-ring, .mark-focus-line", "the keyboard is here", () => [ring({ x: WIDE / 2, y: MIDDLE }, 10)]],
  [".mark-tag.danger", "danger, with its number in Findings", () => [tag({ x: WIDE / 2, y: MIDDLE }, "danger", "1", 0.9)]],
  [".mark-tag.warning", "warning, with its number in Findings", () => [tag({ x: WIDE / 2, y: MIDDLE }, "warning", "1", 0.9)]],
  [".mark-shown, .mark-shown-line", "meant by the finding that is shown", () => [draw("rect", { ...sized(box), class: "mark-shown" })]],
  [".mark-advice.odd", "landing here would be odd", () => [adviceMark({ x: WIDE / 2, y: MIDDLE }, "odd", 1)]],
  [".mark-advice.danger", "landing here would be a danger", () => [adviceMark({ x: WIDE / 2, y: MIDDLE }, "danger", 1)]],
  [".mark-pulled", "not checked yet", () => [line("mark-pulled")]],
  [".mark-path-rails", "the path that is followed", () => cased("mark-path-rails", "mark-between")],
  [".mark-stop", "the path stops here", () => [draw("path", { d: `M${WIDE / 2} 0V${HIGH}`, class: "mark-stop" })]],
  [".mark-pin", "a probe of the meter", () => [probe("p1", 18), probe("p2", 44)]],
];

/** @param {string} name @param {number} x */
function probe(name, x) {
  const head = draw("circle", { cx: x, cy: MIDDLE, r: 11, class: "mark-head" });
  return draw("g", { class: `mark-pin ${name}` }, head, draw("text", { x, y: MIDDLE + 4 }, name.toUpperCase()));
}

/** @param {{x: number, y: number, w: number, h: number}} box */
function sized({ x, y, w, h }) {
  return { x, y, width: w, height: h };
}

/** @param {import("../bench.js").Bench} bench */
export function installLegend(bench) {
  const list = byId("legend");
  const button = byId("legend-open");
  let told = "";
  const fill = () => {
    if (list.hidden) return;
    const rows = [...drawnRows(bench.surface.drawing.svg), ...ourRows(bench.surface.host)];
    const wanted = rows.map((row) => row.dataset.legend).join(" ");
    if (wanted === told) return;
    told = wanted;
    list.replaceChildren(...rows);
  };
  const show = (/** @type {boolean} */ open) => {
    list.hidden = !open;
    button.setAttribute("aria-expanded", String(open));
    told = "";
    fill();
  };
  button.addEventListener("click", () => {
    keep("legend", list.hidden);
    show(list.hidden);
  });
  bench.surface.on("swapped", fill);
  bench.surface.hand.on("painted", fill);
  show(recall("legend") === true);
}

/**
 * The marks that the drawing lists in its own legend.
 * @param {SVGSVGElement|null} svg
 */
function drawnRows(svg) {
  const marks = /** @type {SVGGElement[]} */ ([...(svg?.querySelectorAll(".legend [data-mark]") ?? [])]);
  return marks.map((mark) => {
    const words = mark.querySelector("text:last-of-type")?.textContent ?? "";
    const sample = /** @type {SVGGElement} */ (mark.cloneNode(true));
    sample.querySelector("text:last-of-type")?.remove();
    const { x, y, height } = mark.getBBox();
    return row(mark.dataset.mark ?? "", words, `${x - 2} ${y + height / 2 - MIDDLE} ${WIDE + 4} ${HIGH}`, [sample], "drawing");
  });
}

/** @param {HTMLElement} host */
function ourRows(host) {
  return OURS.filter(([where]) => host.querySelector(`.hand :is(${where})`)).map(([where, words, sample]) =>
    row(where.replaceAll(/[^a-z]+/g, "-"), words, `0 0 ${WIDE} ${HIGH}`, sample(), "hand"),
  );
}

/** @param {string} name @param {string} words @param {string} viewBox @param {SVGElement[]} sample @param {string} sort */
function row(name, words, viewBox, sample, sort) {
  const picture = draw("svg", { viewBox, width: WIDE, height: HIGH, class: `sample ${sort}`, "aria-hidden": "true" }, ...sample);
  return make("li", { "data-legend": name }, picture, make("span", {}, words));
}
