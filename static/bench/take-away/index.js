export { installPrint } from "./print.js";
export { installTakeAway } from "./take-away.js";
