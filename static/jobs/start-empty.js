/** A job with one empty layout. */

import { byId } from "../bench/shared/dom.js";
import { post } from "../bench/job/requests.js";
import { goTo } from "./go.js";

export function installStartEmpty() {
  byId("start-empty").addEventListener("submit", async (event) => {
    event.preventDefault();
    const title = /** @type {HTMLInputElement} */ (byId("new-title")).value.trim() || "New job";
    const layouts = { "as-left": { parts: {}, cables: {}, conductors: {} } };
    goTo(await post("/api/jobs", { format: "rungwright-job", version: 1, title, layouts }), title);
  });
}
