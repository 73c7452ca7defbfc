// The page's side of Python: one worker that answers, watched, and replaced when it dies or falls silent.
// Its events are its states: starting, slow, ready, restarting, failed; and snapshot, when the next start will be
// quick.
import { snapshotIsWorthMaking, spoilSnapshot } from "./snapshot.js";
import { script } from "./trust.js";

/** @typedef {{id: number, html?: string, rig?: string, part?: string, problem?: string, damaged?: boolean, unfinished?: boolean}} Reply */
/** @typedef {{id: number, text: string, patience: number, sure: boolean, tries: number, settle: (reply: Reply | null) => void}} Question */

/** How long an answer may take: while somebody types, or where the whole rig is asked about. */
const SILENCE = 10_000;
const LONG_SILENCE = 60_000;
/** What somebody who types waits for. */
const QUICK = ["typing", "later"];
const SLOW_START = 5_000;
/** How long a start may take. Files that come from the network may be minutes in coming. */
const PATIENCE = { quick: 20_000, snapshot: 20_000, plain: 60_000, network: 600_000 };
/** A snapshot is made when nobody has asked anything for so long. */
const IDLE = 4_000;

export class Python extends EventTarget {
  /** @type {Worker | undefined} */ #worker;
  /** @type {Question | undefined} */ #asked;
  /** @type {Question | undefined} */ #next;
  /** Questions that nothing may overtake. @type {Question[]} */ #sure = [];
  /** @type {"off" | "starting" | "ready" | "failed"} */ #state = "off";
  /** @type {"quick" | "plain"} */ #how = "quick";
  /** @type {"snapshot" | "plain" | undefined} */ #from;
  #watchdog = 0;
  #slow = 0;
  #idle = 0;
  #count = 0;

  /** Starts the worker; until it is ready, the latest question waits. */
  start() {
    this.#begin("quick", "starting");
  }

  /**
   * The latest question wins: one that another has overtaken is settled with null. A change of the rig is sure of its
   * turn, and settled with null only where Python fails.
   * @param {string} what
   * @param {Record<string, string>} form
   * @param {{rig?: string, sure?: boolean}} [more]  the document of the rig it is about
   * @returns {Promise<Reply | null>}
   */
  ask(what, form, { rig, sure = false } = {}) {
    return new Promise((settle) => {
      const id = ++this.#count;
      const patience = QUICK.includes(what) ? SILENCE : LONG_SILENCE;
      const question = { id, patience, text: JSON.stringify({ id, what, form, rig }), sure, tries: 0, settle };
      if (sure) this.#sure.push(question);
      else {
        this.#next?.settle(null);
        this.#next = question;
      }
      if (this.#state === "failed") this.#dropQuestions();
      else this.#send();
    });
  }

  /**
   * @param {"quick" | "plain"} how
   * @param {"starting" | "restarting"} event
   */
  #begin(how, event) {
    this.#worker?.terminate();
    this.#how = how;
    this.#state = "starting";
    this.#worker = newWorker((message) => this.#hear(message));
    this.#worker.postMessage({ start: how });
    this.#watch(how === "plain" ? PATIENCE.plain : PATIENCE.quick);
    clearTimeout(this.#slow);
    this.#slow = setTimeout(() => this.#tell("slow"), SLOW_START);
    this.#tell(event);
  }

  /** @param {any} message */
  #hear(message) {
    if (message.failed) return this.#startFailed(message.failed);
    if (message.starting) return this.#starting(message.starting);
    if (message.ready) return this.#ready();
    clearTimeout(this.#watchdog);
    const asked = this.#asked;
    this.#asked = undefined;
    asked?.settle(this.#next && !asked.sure ? null : JSON.parse(message.reply));
    this.#send();
  }

  /** @param {"snapshot" | "plain"} from */
  #starting(from) {
    this.#from = from;
    const network = from === "plain" && !navigator.serviceWorker?.controller;
    this.#watch(network ? PATIENCE.network : PATIENCE[from]);
  }

  #ready() {
    clearTimeout(this.#watchdog);
    clearTimeout(this.#slow);
    this.#state = "ready";
    this.#tell("ready");
    this.#send();
    if (this.#from === "plain" && this.#how === "quick") this.#planSnapshot();
  }

  #send() {
    if (this.#state !== "ready" || this.#asked) return;
    this.#asked = this.#sure.shift() ?? this.#next;
    if (!this.#asked) return;
    if (this.#asked === this.#next) this.#next = undefined;
    this.#worker?.postMessage({ ask: this.#asked.text });
    this.#watch(this.#asked.patience);
  }

  /** @param {number} patience */
  #watch(patience) {
    clearTimeout(this.#watchdog);
    this.#watchdog = setTimeout(() => (this.#state === "ready" ? this.#silent() : this.#startFailed("no sign of life")), patience);
  }

  /** A worker that does not answer is replaced and asked once more; a question that silences two is given up. */
  #silent() {
    const asked = this.#asked;
    this.#asked = undefined;
    if (asked && !asked.sure && this.#next) asked.settle(null);
    else if (asked && ++asked.tries < 2) asked.sure ? this.#sure.unshift(asked) : (this.#next = asked);
    else if (asked) asked.settle({ id: asked.id, problem: "silent" });
    this.#begin("quick", "restarting");
  }

  /** @param {string} problem */
  async #startFailed(problem) {
    console.warn(problem);
    if (this.#state === "ready") return this.#silent();
    this.#worker?.terminate();
    clearTimeout(this.#watchdog);
    if (this.#how === "plain") return this.#giveUp();
    this.#how = "plain";
    if (this.#from === "snapshot") await spoilSnapshot().catch(() => {});
    this.#begin("plain", "restarting");
  }

  #giveUp() {
    clearTimeout(this.#slow);
    this.#state = "failed";
    this.#tell("failed");
    this.#dropQuestions();
  }

  #dropQuestions() {
    for (const question of [this.#asked, this.#next, ...this.#sure]) question?.settle(null);
    this.#asked = this.#next = undefined;
    this.#sure = [];
  }

  #planSnapshot() {
    clearTimeout(this.#idle);
    this.#idle = setTimeout(() => {
      if (this.#asked || this.#next || this.#sure.length || document.hidden) this.#planSnapshot();
      else this.#makeSnapshot();
    }, IDLE);
  }

  /** One worker makes it, another must be able to start from it; only then is it used. */
  async #makeSnapshot() {
    if (!(await snapshotIsWorthMaking())) return;
    if ((await completes("make")) && (await completes("check"))) this.#tell("snapshot");
    else await spoilSnapshot().catch(() => {});
  }

  /** @param {"starting" | "slow" | "ready" | "restarting" | "failed" | "snapshot"} state */
  #tell(state) {
    this.dispatchEvent(new Event(state));
  }
}

/** @param {(message: any) => void} hear */
function newWorker(hear) {
  const worker = new Worker(script("./worker.js"), { type: "module" });
  worker.onmessage = ({ data }) => hear(data);
  worker.onerror = () => hear({ failed: "the worker's script cannot be had" });
  return worker;
}

/**
 * Whether a worker of its own gets through this.
 * @param {"make" | "check"} task
 * @returns {Promise<boolean>}
 */
function completes(task) {
  return new Promise((resolve) => {
    const finish = (/** @type {boolean} */ well) => {
      clearTimeout(watchdog);
      worker.terminate();
      resolve(well);
    };
    const watchdog = setTimeout(() => finish(false), PATIENCE.plain);
    const worker = newWorker((message) => {
      if (message.failed) finish(false);
      if (message.ready) finish(true);
    });
    worker.postMessage({ start: task });
  });
}
