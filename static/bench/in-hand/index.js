export { InHand } from "./in-hand.js";
export { installBar, targetWords } from "./bar.js";
