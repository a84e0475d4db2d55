/** A demo opens as a copy of one's own. */

import { post } from "../bench/job/requests.js";
import { goTo } from "./go.js";

/** @param {HTMLButtonElement} button */
export async function openDemo(button) {
  button.disabled = true;
  const title = button.closest("li")?.querySelector("h3")?.textContent ?? "";
  goTo(await post(`/api/demos/${encodeURIComponent(button.dataset.demo ?? "")}`, {}), title);
  button.disabled = false;
}
