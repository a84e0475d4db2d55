export { installAsk } from "./ask.js";
export { installCalls } from "./calls.js";
export { installConditions } from "./conditions.js";
