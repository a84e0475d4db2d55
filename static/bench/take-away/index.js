export { installTakeAway } from "./take-away.js";
