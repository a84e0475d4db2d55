/** Starts the bench: makes it, installs its features, asks for the first look. */

import { Bench } from "./bench.js";
import { installAbout } from "./about/index.js";
import { installAdvice } from "./advice/index.js";
import { installAddPart } from "./add-part/index.js";
import { installAsk, installCalls, installConditions } from "./calls/index.js";
import { installAddCable, installCableList } from "./cables/index.js";
import { installCaution } from "./caution/index.js";
import { installAwake, installKept, installNews } from "./device/index.js";
import { installFindings, installOnlyAbout, installShowMe, installTags } from "./findings/index.js";
import { installBar } from "./in-hand/index.js";
import { installInWords } from "./in-words/index.js";
import { installFindingKeys, installKeys, installRemove } from "./keys/index.js";
import { installMenu } from "./menu/index.js";
import { installKeepFound } from "./layouts/index.js";
import { installMore } from "./more/index.js";
import { installPicked } from "./picked/index.js";
import { installSpeech } from "./speech/index.js";
import { installPrint, installTakeAway } from "./take-away/index.js";
import { installHistory, installUndo } from "./steps/index.js";
import { boxPick, installBoxPick } from "./gestures/box-pick/index.js";
import { installCarry } from "./gestures/carry.js";
import { moveEnd } from "./gestures/move-end/index.js";
import { installOutlines, movePart } from "./gestures/move-part/index.js";
import { installWheel, pan } from "./gestures/pan/index.js";
import { pull } from "./gestures/pull/index.js";
import { installTap } from "./gestures/tap/index.js";
import { installLegend } from "./sheet/legend.js";
import { installPending } from "./sheet/pending.js";
import { installPickMarks } from "./sheet/pick-marks.js";
import { installSheet } from "./sheet/sheet.js";
import { installTools } from "./sheet/tools.js";
import { byId } from "./shared/dom.js";
import { installMeter, installProbeKeys } from "./meter/index.js";
import { installTimeline } from "./timeline/index.js";
import { installWhy } from "./why/index.js";
import { installInsides, installRunForm, installSince, installWhere } from "./views/index.js";

const FEATURES = [
  installCableList, installAddCable, installMenu, installLegend,
  installSheet, installPickMarks, installTools, installPending, installCarry, installOutlines, installBoxPick,
  installTap, installWheel, installProbeKeys, installKeys, installRemove, installFindings, installTags, installShowMe, installFindingKeys,
  installAdvice, installBar, installPicked, installWhy, installMeter, installCalls, installConditions, installAsk, installAddPart, installInWords, installUndo,
  installSpeech, installTakeAway, installPrint, installCaution, installInsides, installRunForm,
  installSince, installWhere,
  installOnlyAbout,
  installTimeline,
  installMore,
  installKeepFound,
  installHistory, installAbout, installNews, installKept, installAwake,
];

const bench = new Bench(byId("bench"), byId("sheet"), [pull, moveEnd, movePart, boxPick, pan]);
for (const install of FEATURES) install(bench);
await Promise.all([bench.look(), bench.loadSteps()]);
bench.outbox.rollCall.call();
bench.shown.main.dataset.ready = "yes";
