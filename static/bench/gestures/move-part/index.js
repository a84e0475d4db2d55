export { GRID, movePart, placesAfter } from "./move-part.js";
export { installOutlines } from "./outline.js";
