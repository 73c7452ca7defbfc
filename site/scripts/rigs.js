// The rigs on this phone: their documents as texts, each with a revision, so that of two tabs neither erases what the
// other wrote. What a document means, Python knows.
import { committed, openStore, settled } from "./database.js";

/**
 * before: the document before the last change. board: what the board showed last, and for which units and rules.
 * removed: when it was removed; until it is forgotten it can be brought back.
 * @typedef {{id: string, revision: number, name: string, document: string, before?: string, board?: {terms: string, html: string}, removed?: number}} Rig
 */

/** Another tab has written the rig since it was read here. */
export class Overtaken extends Error {}

const CURRENT = "rig";
const FORGET_AFTER = 30 * 24 * 3_600_000;
const others = new BroadcastChannel("rigs");

/** @param {() => void} look  called when another tab has changed a rig, or which one is in use */
export function onOtherTab(look) {
  others.addEventListener("message", () => look());
}

/** @param {IDBTransactionMode} mode */
const open = (mode) => openStore("rigs", mode, { keyPath: "id" });

/** The rig in use; none for the example.  @returns {Promise<Rig | undefined>} */
export async function rigInUse() {
  const id = localStorage.getItem(CURRENT);
  const rig = id ? await rigOf(id) : undefined;
  return rig?.removed ? undefined : rig;
}

/** @param {string} id @returns {Promise<Rig | undefined>} */
export async function rigOf(id) {
  return settled((await open("readonly")).get(id));
}

/** All rigs, by name; those removed a month ago are forgotten.  @returns {Promise<Rig[]>} */
export async function allRigs() {
  const store = await open("readwrite");
  /** @type {Rig[]} */
  const found = await settled(store.getAll());
  const old = (/** @type {Rig} */ { removed }) => removed !== undefined && Date.now() - removed > FORGET_AFTER;
  for (const { id } of found.filter(old)) store.delete(id);
  await committed(store);
  return found.filter((rig) => !old(rig)).sort((a, b) => a.name.localeCompare(b.name));
}

/** @param {string | undefined} id  none for the example */
export function use(id) {
  if (id) localStorage.setItem(CURRENT, id);
  else localStorage.removeItem(CURRENT);
  others.postMessage("");
}

/**
 * A new rig, kept and in use.
 * @param {string} document
 * @returns {Promise<Rig>}
 */
export async function keepNew(document) {
  const rig = await write({ id: crypto.randomUUID(), revision: 0, name: "", document });
  use(rig.id);
  return rig;
}

/**
 * Writes a rig that was read at its revision: all of it, or nothing.
 * @param {Rig} rig
 * @returns {Promise<Rig>}  as it is kept now
 */
export async function write(rig) {
  const store = await open("readwrite");
  const kept = /** @type {Rig | undefined} */ (await settled(store.get(rig.id)));
  if ((kept?.revision ?? 0) !== rig.revision) throw new Overtaken();
  const written = { ...rig, name: nameIn(rig.document), revision: rig.revision + 1 };
  store.put(written);
  await committed(store);
  others.postMessage("");
  return written;
}

/** What the board shows is kept beside its rig, and is no change of it.  @param {Rig} rig  @param {string} terms  @param {string} html */
export async function keepBoard(rig, terms, html) {
  const store = await open("readwrite");
  const kept = /** @type {Rig | undefined} */ (await settled(store.get(rig.id)));
  if (kept?.revision !== rig.revision) return;
  store.put({ ...kept, board: { terms, html } });
  await committed(store);
}

/** A rig's own name, for the list of rigs. A document that is not JSON has none.  @param {string} document */
function nameIn(document) {
  try {
    return String(JSON.parse(document).name ?? "");
  } catch {
    return "";
  }
}
