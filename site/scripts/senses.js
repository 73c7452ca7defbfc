// What the phone itself can tell: where it is, and how it lies. It is asked on a tap only, and what it tells is put into
// the field as if it had been typed there. The words are those of senses.json.
import { alphaOf, between, endForEnd, facing, gradeOf, meanOf, rotation, STRAIGHT, tilt, turnBetween } from "./attitude.js";
import { WORDS } from "./sense_words.js";

/** @typedef {import("./attitude.js").Matrix} Matrix */
/** @typedef {import("./attitude.js").Vector} Vector */
/** @typedef {{ mean: Matrix, spread: number, swing: number }} Reading */
/** @typedef {DeviceOrientationEvent & { webkitCompassHeading?: number }} Orientation */
/** @typedef {typeof DeviceOrientationEvent & { requestPermission?: (absolute?: boolean) => Promise<string> }} MayAsk */

/** How long is measured, how often meanwhile, and how long is waited for a first reading [ms]. */
const LONG = 2_000, EVERY = 50, FIRST = 3_000;
/** How far it may move meanwhile, and its compass swing [degrees]. */
const MOST_SPREAD = 0.5, MOST_SWING = 5;
/** A phone is off by less than this, and by the same as before; or else it was the ground that differed [degrees]. */
const MOST_LEAN = 3, MOST_CHANGE = 1;
/** Turned end for end, give or take; and how long the first place counts [ms]. */
const HALF_TURN = 180, TURNED_WITHIN = 25, FIRST_COUNTS = 120_000;
/** Flatter than this, a panel faces nowhere [degrees]. */
const LEAST_TILT = 5;
const POSITION = { enableHighAccuracy: true, timeout: 60_000, maximumAge: 600_000 };
/** Where the line out of the phone's back is kept. */
const BACK = "back";

/** The first of two places on a slope.  @type {{ mean: Matrix, spread: number, when: number } | undefined} */
let first;
const busy = new Set();

document.documentElement.dataset.senses = isSecureContext && "geolocation" in navigator ? "all" : "no position";
addEventListener("click", async (event) => {
  const sense = /** @type {HTMLElement} */ (event.target).closest("button")?.dataset.sense;
  if (!sense || busy.has(sense)) return;
  busy.add(sense);
  await (sense === "latitude" ? position() : attitude(sense)).catch((problem) => tell(sense, problem.message, { what: sense }));
  busy.delete(sense);
});

/**
 * Under the button of this sense. The form may have been written anew meanwhile.
 * @param {string} sense
 * @param {string} name of the words
 * @param {Record<string, string | number>} [values]
 */
function tell(sense, name, values = {}) {
  const line = document.querySelector(`[data-sense="${sense}"] + .sensed`);
  if (line) line.textContent = (WORDS[name] ?? "").replace(/\{(\w+)\}/g, (_, key) => String(values[key]));
}

/** As if it had been typed.  @param {string} sense @param {number} value */
function fill(sense, value) {
  const field = document.querySelector(`input[data-sensed="${sense}"]`);
  if (!(field instanceof HTMLInputElement)) return;
  field.value = String(value).replace("-", "−");
  changed(field);
}

/** @param {HTMLInputElement} field */
function changed(field) {
  for (const kind of ["input", "change"]) field.dispatchEvent(new Event(kind, { bubbles: true }));
}

async function position() {
  tell("latitude", "looking");
  const problems = ["", "keptback", "noposition", "slow"];
  const { coords } = await /** @type {Promise<GeolocationPosition>} */ (
    new Promise((found, failed) => navigator.geolocation.getCurrentPosition(found, ({ code }) => failed(new Error(problems[code])), POSITION))
  );
  // No page needs it finer, and a rig may be passed on.
  fill("latitude", Number(coords.latitude.toFixed(2)));
  fill("longitude", Number(coords.longitude.toFixed(2)));
  tell("latitude", "found");
}

/** @param {string} sense */
async function attitude(sense) {
  const Asked = /** @type {MayAsk | undefined} */ (globalThis.DeviceOrientationEvent);
  // This must be the first that a tap does: the browser asks its person only then.
  const allowed = await (Asked?.requestPermission?.(sense === "heading").catch(() => "denied") ?? "granted");
  if (allowed !== "granted") throw new Error("refused");
  tell(sense, "still");
  const reading = await read(sense === "heading");
  const values = { spread: reading.spread.toFixed(1) };
  if (reading.spread > MOST_SPREAD) return tell(sense, "moved", values);
  if (tilt(reading.mean) > 90) return tell(sense, "onface");
  if (sense === "slope") return slope(reading);
  if (sense === "heading") return heading(reading);
  const value = Math.round(tilt(reading.mean, kept()));
  fill("tilt", value);
  tell("tilt", "tilt", { ...values, value });
}

/** @param {Reading} reading */
function slope({ mean, spread }) {
  const before = first && Date.now() - first.when < FIRST_COUNTS ? first : undefined;
  first = { mean, spread, when: Date.now() };
  const turned = before ? turnBetween(before.mean, mean) : 0;
  if (!before || Math.abs(turned - HALF_TURN) > TURNED_WITHIN) return onePlace(mean, spread, before && Math.round(turned));
  first = undefined;
  const { slope, back, lean } = endForEnd(before.mean, mean);
  const values = { value: gradeOf(slope), spread: Math.max(spread, before.spread).toFixed(1), lean: lean.toFixed(1) };
  if (lean > MOST_LEAN || between(back, kept() ?? back) > MOST_CHANGE) {
    localStorage.removeItem(BACK);
    return tell("slope", "unlike", values);
  }
  localStorage.setItem(BACK, JSON.stringify(back));
  fill("slope", values.value);
  tell("slope", "slope", values);
}

/**
 * One place alone tells a slope only where the phone's own error is known.
 * @param {Matrix} mean
 * @param {number} spread
 * @param {number} [turned]  since a place before this one
 */
function onePlace(mean, spread, turned) {
  const back = kept();
  const values = { spread: spread.toFixed(1), turned: turned ?? 0 };
  if (!back) return tell("slope", turned === undefined ? "turn" : "unturned", values);
  const value = gradeOf(tilt(mean, back));
  fill("slope", value);
  tell("slope", "single", { ...values, value, lean: between(back, STRAIGHT).toFixed(1) });
}

/** @param {Reading} reading */
function heading({ mean, swing }) {
  if (tilt(mean, kept()) < LEAST_TILT) return tell("heading", "tooflat");
  if (swing > MOST_SWING) return tell("heading", "moved", { spread: Math.round(swing) });
  const value = Math.round(facing(mean, kept())) % 360;
  // A compass tells magnetic north: what is said beside the heading has to agree.
  const choice = document.querySelector("fieldset[data-sensed]");
  for (const option of /** @type {NodeListOf<HTMLInputElement>} */ (choice?.querySelectorAll("input") ?? [])) {
    if (option.value !== /** @type {HTMLElement} */ (choice).dataset.sensed || option.checked) continue;
    option.checked = true;
    changed(option);
  }
  fill("heading", value);
  tell("heading", "heading", { value, spread: swing.toFixed(1) });
}

/** The line out of this phone's back, where two places have told it.  @returns {Vector | undefined} */
function kept() {
  const text = localStorage.getItem(BACK);
  return text ? JSON.parse(text) : undefined;
}

/**
 * What the phone tells of how it lies, for as long as is measured. A browser may say nothing more of a phone that lies
 * still, so what it said last counts again and again.
 * @param {boolean} absolute  with its heading
 * @returns {Promise<Reading>}
 */
async function read(absolute) {
  /** @type {Matrix | undefined} */ let last;
  let steep = false;
  const take = (/** @type {Event} */ event) => {
    const told = /** @type {Orientation} */ (event);
    const { alpha, beta, gamma, webkitCompassHeading: compass = -1 } = told;
    if (alpha === null || beta === null || gamma === null) return;
    if (absolute && compass < 0 && !told.absolute) return;
    const from = absolute && compass >= 0 ? alphaOf(compass, beta) : alpha;
    steep = Number.isNaN(from);
    if (!steep) last = rotation(from, beta, gamma);
  };
  const kinds = absolute ? ["deviceorientationabsolute", "deviceorientation"] : ["deviceorientation"];
  for (const kind of kinds) addEventListener(kind, take);
  /** @type {Matrix[]} */ const readings = [];
  for (const begun = Date.now(); Date.now() - begun < (readings.length ? Infinity : FIRST) && readings.length < LONG / EVERY; ) {
    await new Promise((passed) => setTimeout(passed, EVERY));
    if (last) readings.push(last);
  }
  for (const kind of kinds) removeEventListener(kind, take);
  if (!readings.length) throw new Error(steep ? "toosteep" : "none");
  return meanOf(readings);
}
