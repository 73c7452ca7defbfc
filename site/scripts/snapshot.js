// A snapshot of Python's memory with everything imported, made on this device and kept in IndexedDB, so that
// it costs nothing on the wire and never meets another engine than its own.
import { BUILT } from "./built.js";
import { committed, openStore, settled } from "./database.js";

/** Pages of zeros, half of all, are left out. */
const PAGE = 4096;

/** A snapshot belongs to one build of the library and one browser: function tables differ between engines. */
const KEY = `${BUILT.folder} ${navigator.userAgent}`;

/**
 * head: Pyodide's own header. checked: another worker has started from it and answered as built.
 * @typedef {{key: string, head?: Uint8Array, checked?: boolean, failures?: number}} Description
 *
 * runs: start, length, start, length ... of the bytes that are not zero.
 * @typedef {{end: number, runs: number[], bytes: Uint8Array, sum: number}} Heap
 */

/**
 * @param {boolean} unchecked  also one that was just made
 * @returns {Promise<{head: Uint8Array, heap: Promise<Heap>} | undefined>}  the heap is still being read
 */
export async function findSnapshot(unchecked) {
  try {
    const store = await openStore("snapshot", "readonly");
    const [description, heap] = [settled(store.get("description")), settled(store.get("heap"))];
    heap.catch(() => {}); // told where it is awaited, if it is
    const found = /** @type {Description | undefined} */ (await description);
    if (found?.key === KEY && found.head && (found.checked || unchecked)) return { head: found.head, heap };
  } catch {
    // No store, no snapshot: Python starts plainly.
  }
}

/** @param {any} pyodide started to make a snapshot, with everything imported */
export async function saveSnapshot(pyodide) {
  const module = pyodide._module;
  forgetTrampoline(module);
  const whole = /** @type {Uint8Array} */ (pyodide.makeMemorySnapshot());
  const start = new Uint32Array(whole.buffer, 0, 2)[1];
  const end = Math.ceil(module._sbrk(0) / PAGE) * PAGE;
  const store = await openStore("snapshot", "readwrite");
  const failures = failuresIn(await settled(store.get("description")));
  store.put({ key: KEY, head: whole.slice(0, start), checked: false, failures }, "description");
  store.put(withoutZeros(whole.subarray(start, start + end)), "heap");
  await committed(store);
}

export async function markChecked() {
  const store = await openStore("snapshot", "readwrite");
  const description = await settled(store.get("description"));
  store.put({ ...description, checked: true }, "description");
  await committed(store);
}

/** The snapshot failed: it goes, and after a second failure none is made again for this build in this browser. */
export async function spoilSnapshot() {
  const store = await openStore("snapshot", "readwrite");
  const description = await settled(store.get("description"));
  store.clear();
  store.put({ key: KEY, failures: failuresIn(description) + 1 }, "description");
  await committed(store);
}

export async function snapshotIsWorthMaking() {
  try {
    const store = await openStore("snapshot", "readonly");
    return failuresIn(await settled(store.get("description"))) < 2;
  } catch {
    return false; // nowhere to keep it
  }
}

/** @param {Description | undefined} description */
function failuresIn(description) {
  return description?.key === KEY ? (description.failures ?? 0) : 0;
}

/**
 * @param {any} module  fresh, of the same build
 * @param {Heap} heap
 */
export function restore(module, { end, runs, bytes, sum }) {
  if (sumOf(bytes) !== sum) throw new Error("the snapshot is not as it was made");
  if (module.HEAP8.length < end) module.growMemory(end);
  const memory = /** @type {Int8Array} */ (module.HEAP8);
  // What the fresh module has written: its data and the beginning of its heap. Its stack is dead.
  memory.fill(0, 0, module.___stack_low);
  memory.fill(0, module.___stack_high, module._sbrk(0));
  let taken = 0;
  for (let run = 0; run < runs.length; run += 2) {
    memory.set(bytes.subarray(taken, taken + runs[run + 1]), runs[run]);
    taken += runs[run + 1];
  }
}

/**
 * @param {Uint8Array} memory
 * @returns {Heap}
 */
function withoutZeros(memory) {
  /** @type {number[]} */
  const runs = [];
  const words = new Uint32Array(memory.buffer, memory.byteOffset, memory.length / 4);
  const bytes = new Uint8Array(memory.length);
  let taken = 0;
  for (let page = 0; page < memory.length; page += PAGE) {
    if (words.subarray(page / 4, (page + PAGE) / 4).every((word) => word === 0)) continue;
    bytes.set(memory.subarray(page, page + PAGE), taken);
    taken += PAGE;
    const last = runs.length - 2;
    if (last >= 0 && runs[last] + runs[last + 1] === page) runs[last + 1] += PAGE;
    else runs.push(page, PAGE);
  }
  const kept = bytes.slice(0, taken);
  return { end: memory.length, runs, bytes: kept, sum: sumOf(kept) };
}

/**
 * Tells a damaged store from a whole one: a first answer may well pass by the damage. Counted by index because the
 * engine has this loop quick within milliseconds; an iterator over the words took ten times as long.
 * @param {Uint8Array} bytes
 */
function sumOf(bytes) {
  const words = new Uint32Array(bytes.buffer, bytes.byteOffset, bytes.length / 4);
  let sum = bytes.length;
  for (let at = 0; at < words.length; at++) sum = (Math.imul(sum, 31) + words[at]) | 0;
  return sum;
}

/**
 * The place in the function table of a short cut that the running engine added for itself; without it, Python
 * takes the long way, in whatever engine starts from this memory.
 * @param {any} module
 */
function forgetTrampoline(module) {
  const offset = module.HEAP32[module.__PyEM_EMSCRIPTEN_TRAMPOLINE_OFFSET / 4];
  module.HEAP32[(module.__PyRuntime + offset) / 4] = 0;
}
