export { installTap } from "./tap.js";
export { WhichOne } from "./which-one.js";
