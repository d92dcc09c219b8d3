// What the queue of lines needs of the browser.

// lost says that nothing answers.
export const lost = "The station does not answer. What you scan is kept, and sent when it is back: steeltally station";

const leaving = 2000; // ms that a page takes at most to be gone

// world is the browser's own.
export async function world() {
  const disk = await Promise.race([database().catch(() => null), wait(leaving)]);
  const alone = aloneWith(disk);
  for (const name of await namesOn(disk)) await alone(name, () => {});
  return {
    post,
    now: () => Date.now(),
    wait,
    key: () => crypto.randomUUID(),
    own: sessionStorage,
    all: onDisk(localStorage, disk),
    hold,
    alone,
  };
}

const wait = (ms) => new Promise((r) => setTimeout(r, ms));

// aloneWith gives what does work on what a window kept that is gone. Its latest is on the
// disk where the browser was ended, or the store of this page is behind.
function aloneWith(disk) {
  return (name, work) => navigator.locks.request(name, { ifAvailable: true }, async (lock) => {
    if (!lock) return;
    try {
      const text = await done(records(disk, "readonly").get(name));
      if (count(text) > count(localStorage.getItem(name))) localStorage.setItem(name, text);
    } catch { /* what is in the store is there */ }
    work();
  });
}

// onDisk is a store of which nothing is lost with the browser. A browser writes its own to
// the disk now and then only: Chromium had not after twelve seconds (measured). So all stands
// in a database, too, which is written at once; where there is none the store does without.
function onDisk(store, disk) {
  const write = (act) => { try { act(records(disk, "readwrite")); } catch { /* it is in the store */ } };
  return {
    get length() { return store.length; },
    key: (i) => store.key(i),
    getItem: (name) => store.getItem(name),
    setItem(name, text) {
      if (store.getItem(name) === text) return;
      store.setItem(name, text);
      write((all) => all.put(text, name));
    },
    removeItem(name) {
      store.removeItem(name);
      write((all) => all.delete(name));
    },
  };
}

async function namesOn(disk) { try { return await done(records(disk, "readonly").getAllKeys()); } catch { return []; } }

// count is how often a window had kept something when it kept this.
function count(text) { try { return JSON.parse(text).n || 0; } catch { return -1; } }

function database() {
  const asked = indexedDB.open("steeltally", 1);
  asked.onupgradeneeded = () => asked.result.createObjectStore("kept");
  return done(asked);
}

const records = (disk, mode) => disk.transaction("kept", mode, { durability: "strict" }).objectStore("kept");

const done = (asked) => new Promise((told, failed) => { asked.onsuccess = () => told(asked.result); asked.onerror = () => failed(asked.error); });

// hold has a name until the page is gone. The page before it in the same window lets go of
// it as it goes; another one that has it never does, and is not waited for.
function hold(name) {
  return new Promise((held) => {
    const forever = () => { held(true); return new Promise(() => {}); };
    navigator.locks.request(name, { signal: AbortSignal.timeout(leaving) }, forever).catch(() => held(false));
  });
}

// post gives the answer, or the text that says why there is none.
async function post(path, body) {
  try {
    const response = await fetch(path, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(body), signal: AbortSignal.timeout(30000) });
    if (response.ok) return { answer: await response.json() };
    if (response.status === 401) return { text: "This page is not let in any more: press Enter where steeltally station runs, or start it again: that opens the screen. What you scan is kept." };
    return { text: await response.text() };
  } catch {
    return { text: lost };
  }
}
