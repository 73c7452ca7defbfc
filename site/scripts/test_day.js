// The first power-up and its load test: what was ticked, since when the half hour runs, and which reading is due.
// Nothing counts on this script running: all is worked out of the time at which it was started, which is stored, so that
// a screen turned off or a browser that was closed loses no minute.
import { committed, openStore, settled } from "./database.js";
import { clockOf } from "./noting.js";
import { byId } from "./pieces.js";
import { say } from "./state.js";

/** When it began and was stopped, and when each step was ticked, in milliseconds.
 * @typedef {{began?: number, stopped?: number, ticked: Record<string, number>}} State */

const MINUTE = 60_000;
const STORE = "testday";

/**
 * @param {import("./desk.js").Desk} desk
 * @param {import("./noting.js").Noting} noting
 */
export async function testDay(desk, noting) {
  const key = desk.rig?.id ?? "example";
  return new TestDay(key, (await stored(key)) ?? { ticked: {} }, noting);
}

/** @param {string} key @returns {Promise<State | undefined>} */
async function stored(key) {
  return settled((await openStore(STORE, "readonly")).get(key));
}

class TestDay {
  #key;
  #state;
  #host = byId("noting");
  /** The reading that is being noted.  @type {string | undefined} */ #open;
  /** The ticks that were cleared.  @type {Record<string, number> | undefined} */ #cleared;
  /** What was told last. */ #told = "";
  /** @type {{release: () => void} | undefined} */ #awake;

  /**
   * @param {string} key
   * @param {State} state
   * @param {import("./noting.js").Noting} noting
   */
  constructor(key, state, noting) {
    this.#key = key;
    this.#state = state;
    byId("timer-start").addEventListener("click", () => this.#change({ began: Date.now(), stopped: undefined }));
    byId("timer-stop").addEventListener("click", () => this.#change({ stopped: Date.now() }));
    byId("timer-on").addEventListener("click", () => this.#change({ stopped: undefined }));
    byId("ticks-clear").addEventListener("click", () => this.#clear());
    byId("of-rig").addEventListener("change", (event) => this.#tick(/** @type {HTMLInputElement} */ (event.target)));
    byId("load").addEventListener("click", (event) => this.#note(/** @type {HTMLElement} */ (event.target)));
    // The page comes back to sight: another tab may have started or stopped it meanwhile.
    addEventListener("visibilitychange", async () => {
      if (document.hidden) return;
      this.#state = (await stored(this.#key)) ?? this.#state;
      this.placed();
    });
    setInterval(() => this.#show(), 1_000);
    noting.noted = () => this.changed();
    this.placed();
  }

  /** Called when the log or the half hour has changed, and the page is to be filled anew. */
  changed = () => {};

  /** @returns {Record<string, string>} */
  get texts() {
    return this.#state.began ? { began: clockOf(this.#state.began) } : {};
  }

  /** The page was filled anew: the ticks go back in, and the control to the reading that it notes. */
  placed() {
    const steps = /** @type {NodeListOf<HTMLInputElement>} */ (document.querySelectorAll("[data-tick]"));
    for (const step of steps) step.checked = (step.dataset.tick ?? "") in this.#state.ticked;
    const times = [...steps].filter((step) => step.checked).map((step) => this.#state.ticked[step.dataset.tick ?? ""]);
    say("ticked", times.length ? "ticked" : "none", { done: times.length, all: steps.length, when: shown(Math.min(...times)) });
    byId("ticks-clear").hidden = !times.length && !this.#cleared;
    if (this.#open) this.#slot(this.#open)?.append(this.#host);
    this.#show();
  }

  /** @param {string} what */
  #slot(what) {
    return document.querySelector(`#load li[data-reading="${CSS.escape(what)}"]`);
  }

  /** @param {Partial<State>} change */
  async #change(change) {
    this.#state = { ...this.#state, ...change };
    this.placed();
    try {
      const store = await openStore(STORE, "readwrite");
      store.put(this.#state, this.#key);
      await committed(store);
    } catch (problem) {
      console.warn(problem);
      say("rig-problem", "store");
    }
    if ("began" in change) this.changed();
  }

  /** @param {HTMLInputElement} step */
  #tick({ checked, dataset: { tick = "" } }) {
    const { [tick]: _, ...others } = this.#state.ticked;
    this.#name("words");
    this.#cleared = undefined;
    this.#change({ ticked: checked ? { ...others, [tick]: Date.now() } : others });
  }

  /** Nothing is lost on one tap: the same button puts the ticks back. */
  #clear() {
    const ticked = this.#cleared ?? {};
    this.#cleared = this.#cleared ? undefined : this.#state.ticked;
    this.#name(this.#cleared ? "undo" : "words");
    this.#change({ ticked });
  }

  /** @param {"words" | "undo"} words */
  #name(words) {
    byId("ticks-clear").textContent = byId("ticks-clear").dataset[words] ?? "";
  }

  /** The control goes to the reading whose button was tapped.  @param {HTMLElement} button */
  #note(button) {
    const slot = /** @type {HTMLElement | null} */ (button.closest("[data-reading]"));
    if (!button.closest("button[data-what]") || !slot) return;
    this.#open = slot.dataset.reading;
    this.#host.hidden = false;
    slot.append(this.#host);
  }

  #show() {
    const { began, stopped } = this.#state;
    const moments = (byId("timer").dataset.minutes ?? "").split(" ").map(Number);
    const last = moments[moments.length - 1];
    const gone = began === undefined ? 0 : Math.max(0, (stopped ?? Date.now()) - began);
    const running = began !== undefined && stopped === undefined;
    byId("timer").classList.toggle("running", running);
    byId("timer-start").hidden = running;
    byId("timer-stop").hidden = !running;
    byId("timer-on").hidden = stopped === undefined;
    this.#stayAwake(running && gone < last * MINUTE);
    if (began === undefined) return say("clock", "none");
    const told = { gone: count(gone), left: count(last * MINUTE - gone), when: shown(began), over: Math.floor(gone / MINUTE) - last };
    say("clock", gone >= last * MINUTE ? "over" : "on", told);
    if (!running) return this.#tell("stopped", { minute: Math.floor(gone / MINUTE) });
    const now = moments.filter((minute) => minute * MINUTE <= gone).pop() ?? 0;
    const next = moments.find((minute) => minute > now);
    const late = Math.floor(gone / MINUTE) - now;
    for (const moment of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("[data-minute]"))) {
      moment.classList.toggle("due", Number(moment.dataset.minute) === now && Boolean(moment.querySelector(".blank")));
    }
    if (document.querySelector("[data-minute].due")) this.#tell(late ? "late" : "due", { minute: now, late, s: late === 1 ? "" : "s" });
    else if (next === undefined) this.#tell("done", {});
    else this.#tell("next", { minute: next, left: Math.ceil((next * MINUTE - gone) / MINUTE) });
  }

  /**
   * Spoken, and so only changed where there is something new; a phone that can, shakes when something is due.
   * @param {string} words
   * @param {Record<string, string | number>} values
   */
  #tell(words, values) {
    const told = JSON.stringify([words, values]);
    if (told === this.#told) return;
    if (words === "due" && this.#told) navigator.vibrate?.([400, 200, 400]);
    this.#told = told;
    say("due", words, values);
  }

  /** A screen that is on is seen; where the browser cannot keep it so, the page has said to.  @param {boolean} wanted */
  async #stayAwake(wanted) {
    if (!wanted) return this.#sleep();
    if (this.#awake || document.hidden || !("wakeLock" in navigator)) return;
    this.#awake = { release: () => {} }; // not twice
    try {
      const lock = await navigator.wakeLock.request("screen");
      this.#awake = lock;
      lock.addEventListener("release", () => (this.#awake = undefined));
    } catch {
      // A phone low on charge may refuse: then it is asked again when the page comes back to sight.
    }
  }

  #sleep() {
    this.#awake?.release();
    this.#awake = undefined;
  }
}

/** Minutes and seconds, as a clock shows them.  @param {number} time */
function count(time) {
  const seconds = Math.max(0, Math.round(time / 1_000));
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
}

/** @param {number} when */
const shown = (when) => (Number.isFinite(when) ? clockOf(when).replace("T", " ") : "");
