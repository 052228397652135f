// The thread of a program in a worker. The page hands the program over and says in
// which role it is started; from then on the program itself listens. What keeps it
// from running, or ends it, is told.
"use strict";
onmessage = ({ data }) => {
  onmessage = null;
  (async () => {
    if (data.exec) importScripts(data.exec);
    const go = new Go();
    go.argv = ["ruffwright", data.role];
    await go.run(await WebAssembly.instantiate(data.module, go.importObject));
    throw new Error("its program ended by itself");
  })().catch((why) => postMessage({ dead: String(why && why.message ? why.message : why) }));
};
