// The worker: starts Python, plainly or from a saved snapshot of its memory, and answers questions.
// Whatever goes wrong is told to the page by message: some engines report nothing when a module worker fails.
import { BUILT } from "./built.js";
import { findSnapshot, markChecked, restore, saveSnapshot } from "./snapshot.js";

/**
 * How a worker is asked to start: "quick" takes the snapshot if there is a checked one; "make" saves one; "check"
 * tries the one just saved.
 * @typedef {"quick" | "plain" | "make" | "check"} Start
 */

const folder = new URL(BUILT.folder, import.meta.url).href;

/** What loadPyodide needs to find everything at home and to ask nobody else. */
const places = {
  indexURL: folder,
  packageBaseUrl: folder,
  stdLibURL: folder + "library.zip",
  lockFileContents: { info: BUILT.lock, packages: {} },
};

/** @type {(question: string) => string} */
let reply;

self.onmessage = async ({ data }) => {
  try {
    if (data.start) await start(data.start);
    else self.postMessage({ reply: reply(data.ask) });
  } catch (problem) {
    self.postMessage({ failed: String(problem) });
  }
};

/** @param {Start} how */
async function start(how) {
  const runtime = import(folder + "pyodide.mjs");
  const core = import(folder + "pyodide.asm.mjs");
  const saved = how === "quick" || how === "check" ? await findSnapshot(how === "check") : undefined;
  self.postMessage({ starting: saved ? "snapshot" : "plain" });
  const { loadPyodide } = await runtime;
  const pyodide = await orNoWasm(
    loadPyodide({
      ...places,
      _makeSnapshot: how === "make",
      _loadSnapshot: saved?.head,
      createPyodideModule: async (/** @type {object} */ settings) => {
        const module = await (await core).default(settings);
        if (saved) restore(module, await saved.heap);
        return module;
      },
    }),
  );
  reply = pyodide.pyimport("calc.reply").reply;
  const thorough = how === "make" || how === "check";
  for (const known of thorough ? BUILT.known : BUILT.known.slice(0, 1)) mustAnswerAsBuilt(known);
  if (how === "make") await saveSnapshot(pyodide);
  if (how === "check") await markChecked();
  self.postMessage({ ready: saved ? "snapshot" : "plain" });
}

/**
 * Pyodide only warns when its wasm cannot be had, and then waits for ever; here that is a failure.
 * @template T
 * @param {Promise<T>} loading
 * @returns {Promise<T>}
 */
function orNoWasm(loading) {
  const instantiate = WebAssembly.instantiateStreaming;
  const failing = new Promise((_, reject) => {
    WebAssembly.instantiateStreaming = async (source, imports) => {
      try {
        return await instantiate(source, imports);
      } catch (problem) {
        reject(problem);
        throw problem;
      }
    };
  });
  return Promise.race([loading, failing]);
}

/** @param {{question: string, crc32: number}} known */
function mustAnswerAsBuilt({ question, crc32 }) {
  if (crc32Of(new TextEncoder().encode(reply(question))) !== crc32) {
    throw new Error(`Python does not answer here as it did when this was built: ${question}`);
  }
}

/**
 * Against accidents in memory or storage; changed files are refused by their SHA-256 before.
 * @param {Uint8Array} bytes
 */
function crc32Of(bytes) {
  let rest = -1;
  for (const byte of bytes) {
    rest ^= byte;
    for (let bit = 0; bit < 8; bit++) rest = (rest >>> 1) ^ (0xedb88320 & -(rest & 1));
  }
  return ~rest >>> 0;
}
