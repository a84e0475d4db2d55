/** *Title, notes and units*: what is said of the job itself. What is kept together is one step. */

import { byId } from "../shared/dom.js";
import { ask } from "../job/requests.js";

/** @param {import("../bench.js").Bench} bench */
export function installAbout(bench) {
  const dialog = /** @type {HTMLDialogElement} */ (byId("about"));
  const about = new About(bench);
  byId("about-open").addEventListener("click", async () => {
    byId("more").removeAttribute("open");
    if (await about.read()) dialog.showModal();
  });
  byId("about-close").addEventListener("click", () => dialog.close());
  byId("about-form").addEventListener("submit", async (event) => {
    event.preventDefault();
    if (await about.keep()) dialog.close();
  });
}

const field = (/** @type {string} */ name) => /** @type {HTMLInputElement} */ (byId(`about-${name}`));

class About {
  /** @param {import("../bench.js").Bench} bench */
  constructor(bench) {
    this.bench = bench;
    /** @type {any} */
    this.job = null;
  }

  /** @returns {Promise<boolean>} whether the server told what stands there */
  async read() {
    const outcome = await ask(this.bench.shown.address);
    if (outcome.sort !== "answer") {
      this.bench.stateLine.lookFailed(outcome);
      return false;
    }
    this.job = outcome.body;
    const { units = "us", frequency_hz: hertz = 60 } = this.job.settings ?? {};
    field("title").value = this.job.title;
    field("notes").value = this.job.notes ?? "";
    field("units").value = units;
    field("hertz").value = String(hertz);
    byId("about-said").textContent = "";
    return true;
  }

  /** @returns {Promise<boolean>} */
  async keep() {
    const { operations, names } = this.changes();
    if (operations.length === 0) return true;
    const saved = await this.bench.submit({ operations, step: `change ${names.join(" and ")} of the job`, spoken: `Changed ${names.join(" and ")}.` });
    if (!saved) byId("about-said").textContent = "Not kept; the line at the top says why.";
    return saved;
  }

  changes() {
    /** @type {import("../job/types.js").Operation[]} */
  const operations = [];
    /** @type {string[]} */
  const names = [];
    const { title, notes = "", settings } = this.job;
    const put = (/** @type {string} */ name, /** @type {string} */ path, /** @type {unknown} */ before, /** @type {unknown} */ value) => {
      if (value === before) return;
      names.push(name);
      operations.push({ op: "add", path, value });
    };
    put("title", "/title", title, field("title").value.trim());
    put("notes", "/notes", notes, field("notes").value);
    const { units = "us", frequency_hz: hertz = 60 } = settings ?? {};
    const begun = operations.length;
    put("units", "/settings/units", units, field("units").value);
    put("mains", "/settings/frequency_hz", hertz, Number(field("hertz").value));
    if (operations.length > begun && !settings) operations.splice(begun, 0, { op: "add", path: "/settings", value: {} });
    return { operations, names };
  }
}
