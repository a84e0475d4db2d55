export { pan } from "./pan.js";
export { installWheel } from "./wheel.js";
