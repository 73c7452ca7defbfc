// Compiles Python inside Pyodide, so that the bytecode is that of the interpreter which will run it on the phone.
//   node compile.mjs SOURCES.zip OUTPUT ASKED.json
import { readFileSync } from "node:fs";
import { loadPyodide } from "pyodide";

const [sources, output, asked] = process.argv.slice(2);
const { info } = JSON.parse(readFileSync(new URL(import.meta.resolve("pyodide/pyodide-lock.json")), "utf8"));
const pyodide = await loadPyodide({
  // The library as the phone will have it, so that what it imports at its start is what is taken.
  stdLibURL: sources,
  lockFileContents: { info, packages: {} },
  packageBaseUrl: sources,
  // No column tables in the bytecode: they are for carets in tracebacks, and weigh a tenth.
  env: { PYTHONNODEBUGRANGES: "1", PYTHONHASHSEED: "0" },
});
pyodide.FS.writeFile("/asked.json", readFileSync(asked));
pyodide.FS.mkdirTree("/output");
pyodide.FS.mount(pyodide.FS.filesystems.NODEFS, { root: output }, "/output");
pyodide.runPython(readFileSync(new URL("compile_in_pyodide.py", import.meta.url), "utf8"));
