export { installAsk } from "./ask.js";
export { installCalls } from "./calls.js";
