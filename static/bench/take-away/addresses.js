/** Where what can be taken away is had, always of the layout and the situation that are on the sheet. */

const LIVE_IN_LIST = "terminals";

/** @param {import("../job/shown.js").Shown} shown @returns {string[][]} without a call the drawing shows the wiring alone */
function seen(shown) {
  const live = shown.calls.size > 0 || shown.sets.size > 0;
  return [...shown.situationQuery, ...(live ? [] : [["live", "no"]]), ...(shown.insides ? [["insides", "yes"]] : [])];
}

/** @param {import("../job/shown.js").Shown} shown @param {string[]} views @returns {string[][]} what these views need to be told besides */
function needed(shown, views) {
  return [...(views.includes("timing") ? shown.runQuery : []), ...(views.includes("changes") ? shown.sinceQuery : [])];
}

/** @param {import("../job/shown.js").Shown} shown @param {string} view @returns {string} */
export function drawingAddress(shown, view) {
  const query = new URLSearchParams([...seen(shown), ["view", view], ...needed(shown, [view])]);
  return `${shown.address}/drawing.svg?${query}`;
}

/**
 * @param {import("../job/shown.js").Shown} shown @param {"pdf"|"png"} form @param {string[]} views in their order
 * @param {string[][]} paper what is said of it
 */
export function paperAddress(shown, form, [view, ...also], paper) {
  const query = new URLSearchParams([...seen(shown), ["view", view], ...also.map((one) => ["also", one]), ...needed(shown, [view, ...also]), ...paper]);
  return `${shown.address}/drawing.${form}?${query}`;
}

/** @param {import("../job/shown.js").Shown} shown @param {"wires"|"terminals"} list */
export function listAddress(shown, list) {
  const situation = list === LIVE_IN_LIST && shown.calls.size > 0 ? [...shown.situationQuery, ["live", "yes"]] : [["layout", shown.layout]];
  return `${shown.address}/${list}.csv?${new URLSearchParams(situation)}`;
}

/**
 * A file's name from the title of the job: `mill-house-as-left-wires.csv`.
 * @param {...string} words
 */
export function fileName(...words) {
  const plain = words.map((word) => word.toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, ""));
  return plain.filter(Boolean).join("-").slice(0, 100);
}
