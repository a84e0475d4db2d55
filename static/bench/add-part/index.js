export { installAddPart } from "./add-part.js";
export { AddRegion } from "./region.js";
