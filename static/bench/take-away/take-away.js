/** *Take away*: drawings on paper, lists and the job itself, as they are on the sheet now. */

import { byId } from "../shared/dom.js";
import { keep, recall } from "../shared/remember.js";
import { drawingAddress, fileName, listAddress, paperAddress } from "./addresses.js";
import { save } from "./save.js";

/** What is asked of the paper: its size, how it lies, and how high capitals are at least. */
const PAPER = ["paper", "turned", "capitals"];

/** @param {import("../bench.js").Bench} bench */
export function installTakeAway(bench) {
  const { shown } = bench;
  const dialog = /** @type {HTMLDialogElement} */ (byId("take-away"));
  const form = /** @type {HTMLFormElement} */ (byId("take-form"));
  const point = () => {
    const title = shown.said?.title ?? "job";
    const name = (/** @type {string[]} */ ...words) => fileName(title, shown.layout, ...words);
    link("export", drawingAddress(shown, shown.view), `${name(shown.view)}.svg`);
    link("take-svg", drawingAddress(shown, shown.view), `${name(shown.view)}.svg`);
    link("take-wires", listAddress(shown, "wires"), `${name("wires")}.csv`);
    link("take-terminals", listAddress(shown, "terminals"), `${name("terminals")}.csv`);
    link("take-job", shown.address, `${fileName(title)}.json`);
  };
  shown.on("shown", point);
  shown.on("asked", point);
  recallPaper(form);
  byId("take-open").addEventListener("click", () => {
    describe(bench, form);
    dialog.showModal();
  });
  byId("take-close").addEventListener("click", () => dialog.close());
  byId("take-print").addEventListener("click", () => {
    dialog.close();
    print();
  });
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    takePaper(bench, form, "pdf");
  });
  byId("take-png").addEventListener("click", () => form.reportValidity() && takePaper(bench, form, "png"));
}

/** @param {string} id @param {string} address @param {string} name of the file */
function link(id, address, name) {
  byId(id).setAttribute("href", address);
  byId(id).setAttribute("download", name);
}

/**
 * What cannot be drawn is not offered, and is not taken along.
 * @param {HTMLFormElement} form @param {string} view @param {boolean} can
 */
function enable(form, view, can) {
  /** @type {HTMLInputElement} */ (form.querySelector(`[value="${view}"]`)).disabled = !can;
}

/**
 * What will be on paper.
 * @param {import("../bench.js").Bench} bench @param {HTMLFormElement} form
 */
function describe({ shown }, form) {
  const { words } = shown;
  const layout = words.layouts.find((one) => one.id === words.layout)?.title ?? words.layout;
  const asked = shown.calls.size > 0 || shown.sets.size > 0;
  const situation = asked ? `Shown: ${words.situation}.` : "The wiring only; choose a call to show what it does.";
  byId("take-shown").textContent = `${layout}. ${situation}`;
  enable(form, "timing", shown.calls.size > 0);
  enable(form, "changes", shown.others.length > 0);
  const since = shown.others.find(({ id }) => id === shown.since)?.title;
  byId("take-changes").textContent = since ? `Changes since “${since}”` : "Changes, of two layouts";
  byId("take-said").textContent = "";
}

/** @param {import("../bench.js").Bench} bench @param {HTMLFormElement} form @param {"pdf"|"png"} as */
async function takePaper({ shown }, form, as) {
  const said = byId("take-said");
  const data = new FormData(form);
  const views = data.getAll("view").map(String);
  if (views.length === 0) return void (said.textContent = "Choose what is to be on it first.");
  const paper = PAPER.map((name) => [name, String(data.get(name) ?? "")]).filter(([, value]) => value);
  keep("paper", { views, ...Object.fromEntries(paper) });
  const sheet = /** @type {HTMLInputElement} */ (byId("take-sheet")).value;
  if (as === "png") paper.push(["sheet", sheet]);
  const name = fileName(shown.words.title, shown.layout, ...(views.length === 1 ? views : []), ...(as === "png" ? [`sheet ${sheet}`] : []));
  said.textContent = "Being made...";
  said.textContent = await save(paperAddress(shown, as, views, paper), `${name}.${as}`);
}

/** @param {HTMLFormElement} form */
function recallPaper(form) {
  const { views, ...kept } = recall("paper") ?? {};
  for (const box of /** @type {NodeListOf<HTMLInputElement>} */ (form.querySelectorAll('[name="view"]'))) {
    if (Array.isArray(views)) box.checked = views.includes(box.value);
  }
  for (const name of PAPER) {
    const select = /** @type {HTMLSelectElement} */ (form.elements.namedItem(name));
    if ([...select.options].some((option) => option.value === kept[name])) select.value = kept[name];
  }
}
