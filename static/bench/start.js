/**
 * Lets the drawing that the page came with be painted first; only then are the modules of the bench fetched, all at
 * once. To ask for so many files takes longer than to paint.
 */

/** A page that nobody sees is not painted. */
const LONGEST_WAIT_MS = document.hidden ? 0 : 1000;

const painted = new Promise((done) => {
  requestAnimationFrame(() => setTimeout(done));
  setTimeout(done, LONGEST_WAIT_MS);
});

painted.then(() => {
  const modules = /** @type {HTMLTemplateElement} */ (document.getElementById("modules"));
  document.head.append(modules.content);
  return import("./main.js");
});
