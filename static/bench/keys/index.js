export { installFindingKeys } from "./findings-keys.js";
export { installKeys } from "./keys.js";
export { installRemove } from "./remove-here.js";
