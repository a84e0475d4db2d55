/** Which region a small screen shows, and how high the lower regions are on a tablet. */

export class Regions {
  /** @param {import("../bench.js").Bench} bench */
  constructor(bench) {
    this.main = bench.shown.main;
    for (const button of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("[data-region]"))) {
      button.addEventListener("click", () => this.turnTo(button.dataset.region ?? "sheet"));
    }
    for (const button of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("[data-lower]"))) {
      button.addEventListener("click", () => this.lower(button.dataset.lower ?? "half"));
    }
    this.turnTo("sheet");
    this.lower("half");
  }

  /** @param {string} region */
  turnTo(region) {
    this.main.dataset.region = region;
    press("[data-region]", "region", region);
  }

  /** @param {string} height `less`, `half` or `more` */
  lower(height) {
    this.main.dataset.lower = height;
    press("[data-lower]", "lower", height);
  }
}

/** @param {string} selector @param {string} name @param {string} value */
function press(selector, name, value) {
  for (const button of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll(`button${selector}`))) {
    button.setAttribute("aria-pressed", String(button.dataset[name] === value));
  }
}
