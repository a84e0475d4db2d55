/**
 * The screen stays awake while one works: as long as the page is in view and something was touched in the last quarter
 * of an hour. Browsers give this only to secure addresses; elsewhere it is quietly absent.
 */

const WORKS_FOR_MS = 15 * 60_000;
const SIGNS = ["pointerdown", "keydown", "wheel"];

export function installAwake() {
  if (!("wakeLock" in navigator)) return;
  const awake = new Awake();
  for (const sign of SIGNS) addEventListener(sign, () => awake.touched(), { passive: true, capture: true });
  document.addEventListener("visibilitychange", () => awake.hold());
}

class Awake {
  constructor() {
    /** @type {WakeLockSentinel|null} */
    this.lock = null;
    this.asking = false;
    this.until = 0;
    /** @type {number|undefined} */
    this.timer = undefined;
  }

  touched() {
    this.until = performance.now() + WORKS_FOR_MS;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.lock?.release(), WORKS_FOR_MS);
    this.hold();
  }

  /** The browser takes it away by itself whenever the page goes out of view. */
  async hold() {
    const works = performance.now() < this.until && document.visibilityState === "visible";
    if (!works || this.asking || (this.lock && !this.lock.released)) return;
    this.asking = true;
    try {
      this.lock = await navigator.wakeLock.request("screen");
    } catch {
      // An empty battery or the person's own setting goes before it.
      this.lock = null;
    }
    this.asking = false;
  }
}
