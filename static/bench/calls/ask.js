/** Another call, switch or layout: ask the server what the circuit does then. The job does not change. */

import { ask } from "../job/requests.js";

/** @param {import("../bench.js").Bench} bench */
export function installAsk(bench) {
  let number = 0;
  bench.look = async (again = false) => {
    const mine = (number += 1);
    // The page came with a drawing: of the same revision it need not come again.
    const first = bench.shown.said === null ? bench.surface.drawing.first : "";
    const query = bench.shown.query + (first ? `&drawn=${bench.shown.revision}` : "");
    const outcome = await ask(`/jobs/${bench.shown.job}/shown?${query}`);
    if (mine !== number) return false;
    if (outcome.sort === "answer") {
      // An edit that was saved meanwhile has been shown already.
      if (!again && !outcome.isKept && outcome.body.revision < bench.shown.revision) return bench.look(true);
      bench.shown.take(outcome.body.drawing === null ? { ...outcome.body, drawing: first } : outcome.body);
      if (outcome.isKept) bench.stateLine.openedKept();
    } else {
      bench.stateLine.lookFailed(outcome);
      bench.views.stay(outcome.sort === "refused");
      if (bench.shown.said) bench.shown.emit("unanswered");
    }
    return outcome.sort === "answer" && !outcome.isKept;
  };
  bench.shown.on("asked", async () => {
    const before = bench.shown.said?.situation;
    if ((await bench.look()) && bench.shown.words.situation !== before) bench.speech.say(liveSentence(bench.shown.words));
  });
}

/** @param {import("../job/types.js").Words} words */
function liveSentence(words) {
  const situation = words.situation || "idle";
  return `${situation[0].toUpperCase()}${situation.slice(1)}. ${words.runs}`;
}
