/**
 * The shapes that the modules of the bench pass to each other. Types only.
 *
 * @typedef {{x: number, y: number}} Point
 * @typedef {{op: string, path: string, value?: any}} Operation
 * @typedef {{end: string, conductor: string, far: string|null, words: string}} LandedWire
 * @typedef {{terminal: string, part: string, letter: string, name: string, use: string, side: string, volts: string,
 *   holds: number, landed: LandedWire[], aria: string}} TerminalWords
 * @typedef {{sort: "setting"|"jumper"|"switch", name: string, words: string, value: any,
 *   choices: {value: any, words: string}[], unit?: string, least?: number|null, most?: number|null}} SettingWords
 * @typedef {{id: string, label: string, inner: string, given_label: string, kind: string, kind_title: string,
 *   summary: string, cautions: string[], place: string, note: string, terminals: TerminalWords[],
 *   settings: SettingWords[], has_settings: boolean, running: string[], aria: string}} PartWords
 * @typedef {{end: string, terminal: string|null, unseen: boolean, words: string, aria: string}} EndWords
 * @typedef {{id: string, name: string, title: string, between: string, insulation: string, cable: string|null, cable_label: string,
 *   run: string, length_m: number|null, size_awg: number|null, note: string, ends: [EndWords, EndWords], live: string,
 *   aria: string}} ConductorWords
 * @typedef {{conductor: string, code: string, state: string, ends: [string, string]}} CoreWords a conductor of a cable,
 *   its ends by the sides of the cable
 * @typedef {{id: string, label: string, given_label: string, size_awg: number, length_m: number|null, run: string, note: string,
 *   summary: string, cores: CoreWords[], sides: {parts: string[], words: string}[], aria: string}} CableWords
 * @typedef {{key: string, rule: string, severity: "danger"|"warning"|"note", title: string, message: string,
 *   why: string, meter: string, each: {message: string, meter: string}[], assumes: string[], subjects: string[], subject_words: string[], parts: string[],
 *   place: string, shown_in: {calls: string[], words: string}[], fix: Operation[]|null, fix_words: string,
 *   folded: boolean, aside: boolean, reason: string, back: string, set_aside: Operation[], take_up: Operation[]}} FindingRow
 * @typedef {{part: string, label: string, calls: {call: string, value: string, words: string, asked: boolean}[],
 *   switches: {name: string, words: string, rest: string, value: string,
 *   positions: {value: string, words: string}[]}[]}} ControlWords
 * @typedef {{outdoor_c: number, supply_percent: number, supplies: {name: string, words: string, on: boolean}[]}} ConditionWords weather and mains
 * @typedef {{key: string, part: string, words: string, of: string, waited: boolean}} IdleWords what could run and does not
 * @typedef {{title: string, layout: string, layouts: {id: string, title: string, label: string}[], parts: Record<string, PartWords>,
 *   conductors: Record<string, ConductorWords>, cables: Record<string, CableWords>, length_unit: "ft"|"m", lacks: string[], calls: ControlWords[], conditions: ConditionWords, situation: string, runs: string, opened: string,
 *   effects: {key: string, part: string, words: string, of: string}[], idle: IdleWords[], waiting: string, findings: FindingRow[],
 *   to_wire: {parts: string[], folds: boolean, words: string, names: string}, counts: string, kinds: KindGroup[],
 *   systems: SystemWords[]}} Words
 * @typedef {{title: string, kinds: {kind: string, title: string, summary: string, place: string}[]}} KindGroup
 * @typedef {{name: string, title: string, names: string, kinds: string[]}} SystemWords
 * @typedef {{revision: number, words: Words, view?: string, drawing: string}} Shown
 * @typedef {{operations: Operation[], step: string, spoken?: string, gesture?: string, does?: "do"|"undo"|"redo",
 *   focus?: string}} Act
 * @typedef {{operations: Operation[], key: string, step: string, gesture: string, does: "do"|"undo"|"redo", spoken: string,
 *   at: number, box: string, kept: boolean, tried?: boolean, takenBack?: boolean, doubted?: boolean, sent?: Operation[]}} Entry an edit
 *   that waits: `at` in ms since 1970, `tried` once it was sent, `sent` as what where not all of it, `takenBack` where it is undone as soon as the server has answered
 * @typedef {{ends: [End, End]|null, was: [End, End]|null}} ChangedConductor none where it is not there
 * @typedef {string|null|{unknown: string}} End
 * @typedef {{conductors: Map<string, ChangedConductor>, parts: Map<string, [number, number]|null>}} Changes what waits
 *   to be checked; a part is at another place, or gone
 * @typedef {{sort: "start", terminal: string}|{sort: "end", end: string}} Held what is in hand: a new conductor's
 *   start, or an end of one that is there
 */

export {};
