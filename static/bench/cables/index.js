export { installAddCable } from "./add-cable.js";
export { cableContent } from "./cable.js";
export { cablesSection, installCableList } from "./list.js";
