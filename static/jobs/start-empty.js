/** A job with one layout, empty or with the parts of a common system and no conductor yet. */

import { byId } from "../bench/shared/dom.js";
import { newId } from "../bench/shared/ids.js";
import { post } from "../bench/job/requests.js";
import { goTo } from "./go.js";

export function installStartEmpty() {
  byId("start-empty").addEventListener("submit", async (event) => {
    event.preventDefault();
    const title = /** @type {HTMLInputElement} */ (byId("new-title")).value.trim() || "New job";
    const parts = withFreshIds(JSON.parse(/** @type {HTMLSelectElement} */ (byId("new-parts")).value));
    const layouts = { "as-left": { parts, cables: {}, conductors: {} } };
    goTo(await post("/api/jobs", { format: "rungwright-job", version: 1, title, layouts }), title);
  });
}

/** @param {Record<string, object>} parts */
const withFreshIds = (parts) => Object.fromEntries(Object.entries(parts).map(([kind, part]) => [newId(kind), part]));
