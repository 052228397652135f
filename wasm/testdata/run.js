// Runs the solver's program in a worker thread of Node, as the page runs it in
// a Web Worker: node run.js WASM_EXEC_JS PROGRAM_WASM. Each line on stdin is the
// head of a request; each line on stdout is a reply: JSON with the time in ms,
// the head, the body in base64, and the bytes of the program's memory.
"use strict";
const { Worker, isMainThread, parentPort, workerData } = require("worker_threads");
const fs = require("fs");

if (isMainThread) {
  const [exec, program] = process.argv.slice(2);
  const worker = new Worker(__filename, { workerData: { exec, program } });
  worker.on("message", (m) => console.log(JSON.stringify({
    at: performance.now(), head: m.head, memory: m.memory,
    body: m.body ? Buffer.from(m.body).toString("base64") : "",
  })));
  worker.on("error", (e) => { console.error(e); process.exit(1); });
  worker.on("exit", (code) => process.exit(code));
  const lines = require("readline").createInterface({ input: process.stdin });
  lines.on("line", (head) => worker.postMessage({ head }));
  lines.on("close", () => process.exit(0));
} else {
  require(workerData.exec);
  // A port of Node works through a thousand messages before another port's turn
  // comes; a browser takes them in order. So the program's messages to itself go
  // by way of the loop here.
  globalThis.MessageChannel = class {
    constructor() {
      this.port1 = { onmessage: null };
      this.port2 = { postMessage: (data) => setImmediate(() => this.port1.onmessage({ data })) };
    }
  };
  let memory = null;
  globalThis.postMessage = (m, transfer) => parentPort.postMessage({ ...m, memory: memory ? memory.buffer.byteLength : 0 }, transfer);
  parentPort.on("message", (data) => globalThis.onmessage({ data }));
  const go = new Go();
  go.argv = ["ruffwright", "solver"];
  WebAssembly.instantiate(fs.readFileSync(workerData.program), go.importObject).then(({ instance }) => {
    memory = instance.exports.mem;
    return go.run(instance);
  }).then(() => process.exit(3));
}
