/** Where the server lists no jobs, this device keeps the addresses of those that it made. */

import { byId, make } from "../bench/shared/dom.js";
import { recall } from "../bench/shared/remember.js";

export function showOwnJobs() {
  const list = byId("job-list");
  if (list.dataset.own !== "yes") return;
  const own = recall("jobs") ?? [];
  list.append(...own.map(({ id, title }) => make("li", {}, make("a", { href: `/jobs/${encodeURIComponent(id)}`, "data-job": id }, title))));
  byId("no-jobs").hidden = own.length > 0;
}
