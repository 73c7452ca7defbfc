// Lets micropip, inside Pyodide, resolve what is wanted from a folder of wheels, and prints the lock it freezes.
//   node freeze.mjs WHEELS REQUIREMENT...
import { createServer } from "node:http";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { loadPyodide } from "pyodide";

const [folder, ...wanted] = process.argv.slice(2);
const wheels = readdirSync(folder).filter((name) => name.endsWith(".whl"));
const project = (/** @type {string} */ wheel) => wheel.split("-")[0].replaceAll("_", "-").toLowerCase();

/** A package index of one folder: a page of links for each project, and the wheels themselves. */
const index = createServer((request, response) => {
  const parts = (request.url ?? "").split("/").filter(Boolean);
  if (parts[0] === "wheel" && wheels.includes(parts[1])) {
    response.end(readFileSync(join(folder, parts[1])));
    return;
  }
  const links = wheels.filter((wheel) => project(wheel) === parts[1]).map((wheel) => `<a href="/wheel/${wheel}">${wheel}</a>`);
  response.writeHead(links.length ? 200 : 404, { "Content-Type": "text/html" }).end(links.join("\n"));
});
await new Promise((listening) => index.listen(0, "localhost", () => listening(undefined)));
const { port } = /** @type {import("node:net").AddressInfo} */ (index.address());

const { info } = JSON.parse(readFileSync(new URL(import.meta.resolve("pyodide/pyodide-lock.json")), "utf8"));
const pyodide = await loadPyodide({ lockFileContents: { info, packages: {} }, packageBaseUrl: folder });
for (const wheel of wheels.filter((name) => name.startsWith("micropip-"))) {
  pyodide.unpackArchive(new Uint8Array(readFileSync(join(folder, wheel))), "wheel");
}
const micropip = pyodide.pyimport("micropip");
await micropip.install.callKwargs(wanted, { index_urls: `http://localhost:${port}/simple` });
console.log(micropip.freeze());
index.close();
index.closeAllConnections();
