// The rig in use, between its page, Python and the store: every question goes out with its document, and every change
// comes back as a new document and is kept at once.
import { byId } from "./pieces.js";
import { Overtaken, keepNew, rigInUse, rigOf, write } from "./rigs.js";
import { say } from "./state.js";

/** @typedef {import("./rigs.js").Rig} Rig */
/** @typedef {import("./python.js").Reply} Reply */
/** @typedef {Record<string, string>} Form */

/** A store that does not open must not keep the page from working.  @returns {Promise<never>} */
const tooLong = () => new Promise((_, reject) => setTimeout(() => reject(new Error("the store does not open")), 3_000));

/**
 * A link that saves a text as a file: the first of those that could not be read.
 * @param {string} id  of the link
 * @param {string} text
 */
function offerFile(id, text) {
  const link = /** @type {HTMLAnchorElement} */ (byId(id));
  if (!link.hidden) return; // what was stored last
  link.href = URL.createObjectURL(new Blob([text]));
  link.hidden = false;
}

export class Desk {
  #python;
  /** @type {Rig | undefined} */ rig;
  /** The example as it was changed here; nobody keeps it.  @type {string | undefined} */ changed;
  /** @type {Promise<unknown>} one change after the other */ #last = Promise.resolve();

  /** @param {import("./python.js").Python} python */
  constructor(python) {
    this.#python = python;
  }

  /** Finds the rig in use, where this browser keeps any. */
  async open() {
    try {
      this.rig = await Promise.race([rigInUse(), tooLong()]);
    } catch (problem) {
      console.warn(problem);
      say("rig-problem", "store");
    }
  }

  /** Another rig is in use; one that was removed is brought back.  @param {string} id */
  async openAgain(id) {
    this.changed = undefined;
    this.rig = id ? await rigOf(id) : undefined;
    if (this.rig?.removed) await this.remove(undefined);
  }

  get document() {
    return this.rig?.document ?? this.changed;
  }

  /** Whose rig answers: the words are the template's. */
  get whose() {
    return this.rig ? "own" : this.changed ? "changed" : "example";
  }

  /**
   * The latest question wins, as with Python itself. Where the rig was changed while Python worked, the answer would be
   * about a rig that is no more, and is asked for again. A stored document that cannot be read is replaced by the one
   * before the last change, or else the example stands in; nothing is thrown away.
   * @param {string} what
   * @param {Form} form
   * @param {{ sure?: boolean }} [more]  sure: no later question overtakes it, and it overtakes none
   * @returns {Promise<Reply | null>}
   */
  async ask(what, form, more = {}) {
    const { document } = this;
    const reply = await this.#python.ask(what, form, { ...more, rig: document });
    if (reply && this.document !== document) return this.ask(what, form, more);
    if (!reply?.damaged || !this.rig) return reply;
    const { before } = this.rig;
    const mended = before !== undefined && before !== this.rig.document;
    say("rig-problem", mended ? "damaged" : "lost", { reason: reply.problem ?? "" });
    offerFile("rig-as-stored", this.rig.document);
    this.rig = mended ? { ...this.rig, document: before } : undefined;
    return this.ask(what, form, more);
  }

  /**
   * A change of the rig. Where another tab has written meanwhile, the same change is made to what stands there now.
   * @param {string} what
   * @param {Form} form
   * @returns {Promise<Reply | null>}
   */
  change(what, form) {
    const made = this.#last.then(() => this.#change(what, form));
    this.#last = made.catch(() => {});
    return made;
  }

  /**
   * @param {string} what
   * @param {Form} form
   * @returns {Promise<Reply | null>}
   */
  async #change(what, form) {
    // The rig that is changed: another tab may bring a newer one into hand while Python works.
    const { rig } = this;
    const reply = await this.#python.ask(what, form, { rig: this.document, sure: true });
    if (!reply?.rig) return reply;
    if (!rig) this.changed = reply.rig;
    else if (!(await this.#keep({ ...rig, document: reply.rig, before: rig.document }))) return this.#change(what, form);
    return reply;
  }

  /** Back to the document before the last change; once more, and the change is back. */
  async undo() {
    if (!this.rig?.before) return;
    const { document, before } = this.rig;
    await this.#keep({ ...this.rig, document: before, before: document });
  }

  /** @param {string} document  of a new rig */
  async keep(document) {
    try {
      this.rig = await keepNew(document);
    } catch (problem) {
      this.#notKept(problem);
      this.changed = document;
    }
  }

  /** Removed, or brought back.  @param {number | undefined} when */
  async remove(when) {
    if (this.rig) await this.#keep({ ...this.rig, removed: when });
  }

  /**
   * Keeps the rig. What cannot be kept is still shown, and the page says that it is not kept.
   * @param {Rig} rig
   * @returns {Promise<boolean>}  false where another tab was first: then its rig is in hand now
   */
  async #keep(rig) {
    try {
      this.rig = await write(rig);
    } catch (problem) {
      if (problem instanceof Overtaken) {
        say("rig-problem", "elsewhere");
        this.rig = (await rigOf(rig.id)) ?? this.rig;
        return false;
      }
      this.#notKept(problem);
      this.rig = rig;
    }
    return true;
  }

  /** @param {unknown} problem */
  #notKept(problem) {
    console.warn(problem);
    say("rig-problem", problem instanceof DOMException && problem.name === "QuotaExceededError" ? "room" : "store");
  }
}
