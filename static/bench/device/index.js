export { installAwake } from "./awake.js";
export { installKept } from "./kept.js";
export { installNews } from "./news.js";
