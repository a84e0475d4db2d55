/**
 * What landing on each screw would do, asked once when something is taken in hand. Advice never forbids; when it is
 * late or the server is away, one can still land.
 */

import { Emitter } from "../shared/emitter.js";
import { post } from "../job/requests.js";
import { conductorOf, indexOf } from "../job/acts.js";
import { homeOf } from "../job/landing.js";
import { adviceMark, outward } from "../sheet/marks.js";
import { PITCH } from "../sheet/view.js";

const LATE_MS = 300;
/** px from the screw to its mark at least. */
const FIRST = 18;
/** Where screws are nearer than so many px, marks stand in two columns, so near that a fitted sheet has room for both. */
const CROWDED = 17;
const NEAR = 15;
/** px from the edge of a screw, which is 5 units around its middle, to the middle of its mark. */
const CLEAR = 13;

export class Advice extends Emitter {
  /** @param {import("../bench.js").Bench} bench */
  constructor(bench) {
    super();
    this.bench = bench;
    /** @type {Record<string, {verdict: string, why: string}>} */
    this.verdicts = {};
    this.missing = false;
    this.asked = 0;
  }

  /** @param {string} terminal */
  of(terminal) {
    return this.verdicts[terminal];
  }

  /** @param {import("../job/types.js").Held|null} held */
  async ask(held) {
    const number = (this.asked += 1);
    this.verdicts = {};
    this.missing = false;
    this.bench.surface.hand.refresh("advice");
    if (!held) return;
    const late = setTimeout(() => number === this.asked && this.tell(true), LATE_MS);
    const outcome = await post(`${this.bench.shown.address}/landings`, this.question(held));
    clearTimeout(late);
    if (number !== this.asked) return;
    if (outcome.sort === "answer") this.verdicts = outcome.body;
    this.tell(outcome.sort !== "answer");
  }

  /** @param {boolean} missing */
  tell(missing) {
    this.missing = missing;
    this.emit("changed");
    this.bench.surface.hand.refresh("advice");
  }

  /** @param {import("../job/types.js").Held} held */
  question(held) {
    const { layout } = this.bench.shown;
    if (held.sort === "start") return { layout, start: held.terminal };
    return { layout, conductor: conductorOf(held.end), end: indexOf(held.end) };
  }
}

/**
 * How far from its screw a mark stands, and how large. Marks of neighbouring screws must not cover each other: where
 * screws are crowded every other mark stands farther out.
 * @param {import("../sheet/things.js").Thing} screw @param {number} scale
 */
function standOf({ at, side }, scale) {
  const pitch = PITCH * scale;
  if (pitch >= CROWDED) return { away: Math.max(FIRST, CLEAR + 5 * scale), size: 1 };
  const along = side === "top" || side === "bottom" ? at.x : at.y;
  const isSecond = Math.round(along / PITCH) % 2 !== 0;
  return { away: isSecond ? 2 * NEAR : NEAR, size: Math.min(1, (2 * pitch) / 17, NEAR / 17) };
}

/** @param {import("../bench.js").Bench} bench */
export function installAdvice(bench) {
  const { advice, inHand, surface } = bench;
  inHand.on("changed", () => advice.ask(inHand.held));
  surface.hand.add("advice", (group, view) => {
    // Where no letters are written there is no screw to land on either.
    if (!inHand.held || view.detail === "far") return;
    const home = homeOf(bench.shown.words, inHand.held);
    for (const thing of surface.things.terminals) {
      const verdict = thing.name === home ? null : advice.of(thing.name)?.verdict;
      if (verdict !== "odd" && verdict !== "danger") continue;
      const at = view.toScreen(thing.at);
      if (at.x < -20 || at.y < -20 || at.x > view.width + 20 || at.y > view.height + 20) continue;
      const { away, size } = standOf(thing, view.scale);
      group.append(adviceMark(outward(at, thing.side, away), verdict, size));
    }
  });
}
