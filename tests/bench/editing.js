/**
 * A person who edits at random, by the keys of the bench: pulls conductors, removes them, moves parts, undoes, redoes.
 * Sometimes waits until an edit is saved, sometimes goes on at once. Keeps what the state line says of refused edits.
 */
window.editAtRandom = ({ edits, seed, most }) => {
  const main = document.getElementById("bench");
  const words = document.getElementById("state-words");
  const person = { done: false, made: 0, said: [] };
  new MutationObserver(() => {
    if (/no longer fits?:|^Not done/.test(words.textContent)) person.said.push(words.textContent);
  }).observe(words, { childList: true });
  let state = seed;
  // A small generator of our own, so that a run can be had again (Park and Miller).
  const chance = () => (state = (state * 48271) % 2147483647) / 2147483647;
  const one = (list) => list[Math.floor(chance() * list.length)];
  const pause = (ms) => new Promise((done) => setTimeout(done, ms));
  const on = (sort) => [...document.querySelectorAll(`#sheet [data-key^="${sort}:"]`)];
  const press = (key, more = {}) => {
    const at = document.activeElement;
    at.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true, ...more }));
  };
  const acts = {
    pull() {
      const screws = on("terminal");
      one(screws).focus();
      press("Enter");
      one(screws).focus();
      press("Enter");
      press("Escape");
    },
    remove() {
      const wires = on("conductor");
      if (wires.length < 3) return acts.pull();
      one(wires).focus();
      press("Delete");
    },
    move() {
      one(on("part")).focus();
      press(one(["ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown"]), { shiftKey: true });
    },
    undo: () => document.getElementById("undo").click(),
    redo: () => document.getElementById("redo").click(),
  };
  (async () => {
    while (person.made < edits) {
      const full = on("conductor").length > most;
      acts[full ? "remove" : one(["pull", "pull", "remove", "move", "move", "undo", "redo"])]();
      person.made = window.patchesSent.size;
      if (chance() < 0.7) for (let n = 0; n < 400 && main.dataset.state !== "saved"; n += 1) await pause(5);
      else await pause(Math.floor(chance() * 40));
    }
    while (main.dataset.state !== "saved") await pause(20);
    person.done = true;
  })();
  window.person = person;
};

/** Edits are counted by their keys as they leave. */
window.patchesSent = new Set();
const usual = window.fetch;
window.fetch = (address, options) => {
  if (options?.method === "PATCH") window.patchesSent.add(options.headers["Idempotency-Key"]);
  return usual(address, options);
};
