export { refill } from "./refill.js";
export { endButtons, screwRow } from "./screw-row.js";
