export { installInsides } from "./insides.js";
export { installRunForm } from "./run-form.js";
export { installSince } from "./since.js";
export { installWhere } from "./where.js";
export { EDITED, TITLES } from "./names.js";
export { Views } from "./views.js";
